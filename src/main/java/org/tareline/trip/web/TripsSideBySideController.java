package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.site.CsvTable;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.trip.Total;
import org.tareline.trip.Trip;
import org.tareline.trip.TripComparison;
import org.tareline.trip.Trips;

/** Two trips side by side. */
@Controller
class TripsSideBySideController {

  /**
   * The page.
   *
   * @param first code of the trip that was chosen first; empty while none is
   * @param pair null until two are chosen
   * @param csv address of the table as a file; null while there is none
   */
  record Page(
      List<Choice> trips,
      String first,
      String second,
      @Nullable TripsAgainst pair,
      @Nullable String csv) {}

  private final Trips trips;

  TripsSideBySideController(Trips trips) {
    this.trips = trips;
  }

  @GetMapping("/trips/side-by-side")
  String sideBySide(
      Member member,
      @RequestParam(name = "trip", required = false) @Nullable List<String> chosen,
      Model model) {
    List<String> codes =
        chosen == null ? List.of() : chosen.stream().filter(code -> !code.isBlank()).toList();
    TripsAgainst pair = null;
    try {
      if (codes.size() == 2) {
        pair =
            TripsAgainst.of(trips.compare(member, codes.get(0), codes.get(1)), member.massStyle());
      } else if (codes.size() > 2) {
        refuse(model, "Choose two trips; read " + codes.size() + ".");
      }
    } catch (NotThere gone) {
      refuse(model, "Choose trips of this ledger: one of these is not in it.");
    }
    model.addAttribute(
        "page",
        new Page(
            Stream.concat(
                    Stream.of(new Choice("", "choose")),
                    trips.all(member).stream().map(TripsSideBySideController::choice))
                .toList(),
            codes.isEmpty() ? "" : codes.get(0),
            codes.size() < 2 ? "" : codes.get(1),
            pair,
            pair == null
                ? null
                : UriComponentsBuilder.fromPath("/trips/side-by-side.csv")
                    .queryParam("trip", "{first}", "{second}")
                    .encode()
                    .build(pair.first(), pair.second())
                    .toString()));
    return "trip/side-by-side";
  }

  private static void refuse(Model model, String why) {
    model.addAttribute("faults", List.of(new Refusal.Fault("first", why)));
  }

  private static Choice choice(Trip trip) {
    String when = Words.when(trip);
    return new Choice(
        trip.code(), trip.name() + ", " + trip.code() + (when == null ? "" : ", " + when));
  }

  /** The same as a file, a line for each total and each system. */
  @GetMapping("/trips/side-by-side.csv")
  ResponseEntity<byte[]> file(
      Member member, @RequestParam(name = "trip", required = false) @Nullable List<String> codes) {
    if (codes == null || codes.size() != 2) {
      throw Refusal.badInput("trip", "Name two trips, such as trip=one&trip=another.");
    }
    TripComparison comparison = trips.compare(member, codes.get(0), codes.get(1));
    CsvTable csv =
        new CsvTable(
            "first",
            "second",
            "total or system",
            "first [g]",
            "second [g]",
            "difference [g]",
            "expanded uncertainty of difference [g]",
            "without a mass in first",
            "without a mass in second",
            "verdict");
    List<TripComparison.Row<?>> rows = new ArrayList<>(comparison.totals());
    rows.addAll(comparison.systems());
    for (TripComparison.Row<?> row : rows) {
      csv.line(
          comparison.first().code(),
          comparison.second().code(),
          TripsAgainst.label(row.of()),
          grams(row.a()),
          grams(row.b()),
          row.pair().difference().value().grams(),
          row.pair().difference().expandedUncertainty().grams(),
          missing(row.a()),
          missing(row.b()),
          row.pair().verdict().word());
    }
    return csv.asFile("trips side by side.csv");
  }

  private static @Nullable Object grams(@Nullable Total total) {
    return total == null || total.basis() == null ? null : total.estimate().value().grams();
  }

  private static @Nullable Object missing(@Nullable Total total) {
    return total == null ? null : total.missing().size();
  }
}
