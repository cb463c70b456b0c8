package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rig.OpenTotals;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Targets;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.SeeOther;
import org.tareline.site.TableAsked;
import org.tareline.site.TableOrder;
import org.tareline.site.TableOrder.Head;
import org.tareline.trip.Amount;
import org.tareline.trip.BaseTargets;
import org.tareline.trip.Packing;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;
import org.tareline.trip.Weights;
import org.tareline.units.Mass;

/** The trips of a ledger, and a trip's figures. */
@Controller
class TripsController {

  private static final int MOST_SUGGESTIONS = 8;

  record Suggestion(String code, String name, String aside) {}

  private final Trips trips;
  private final BaseTargets targets;
  private final Parts parts;
  private final Rigs rigs;

  TripsController(Trips trips, BaseTargets targets, Parts parts, Rigs rigs) {
    this.trips = trips;
    this.targets = targets;
    this.parts = parts;
    this.rigs = rigs;
  }

  /**
   * The page of all trips.
   *
   * @param names the headings of the first column, by which it may be sorted in several ways
   */
  record Page(
      TableAsked asked,
      String caption,
      List<Head> names,
      List<Head> heads,
      List<TripTable.Row> rows,
      String csv,
      boolean noneAtAll) {}

  @GetMapping("/trips")
  String trips(Member member, @ModelAttribute("asked") TableAsked asked, Model model) {
    List<Trip> all = trips.all(member);
    TableOrder<TripTable.Line> order = order(member, asked);
    TripTable table = table(member, all, asked, order);
    List<Head> heads = order.heads("/trips", Map.of());
    model.addAttribute(
        "page",
        new Page(
            asked,
            asked.found(table.lines().size(), all.size(), "trip", asked.filtered())
                + "; total pack is base and consumables, skin-out is everything, ± at 95 %",
            heads.subList(0, TripTable.OF_TRIP),
            heads.subList(TripTable.OF_TRIP, heads.size()),
            table.rows(member.massStyle()),
            order.address("/trips.csv", Map.of()),
            all.isEmpty()));
    return "trip/trips";
  }

  @GetMapping("/trips.csv")
  ResponseEntity<byte[]> file(Member member, @ModelAttribute("asked") TableAsked asked) {
    return table(member, trips.all(member), asked, order(member, asked)).csv().asFile("trips.csv");
  }

  private static TableOrder<TripTable.Line> order(Member member, TableAsked asked) {
    return new TableOrder<>(asked, TripTable.columns(member.massStyle()));
  }

  private TripTable table(
      Member member, List<Trip> all, TableAsked asked, TableOrder<TripTable.Line> order) {
    List<Trip> found = all.stream().filter(trip -> asked.finds(trip.code(), trip.name())).toList();
    return TripTable.of(found, trips.packings(member, found), order);
  }

  /**
   * The page; a target, if one is named, stands in its weight statement.
   *
   * @param of the total that the statement is of; the base weight when left out
   */
  @GetMapping("/trips/{code}")
  Object trip(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String target,
      @RequestParam(required = false) @Nullable String of,
      Model model) {
    Trip trip = trips.get(member, code);
    if (!Codes.key(trip.code()).equals(Codes.key(code))) {
      return SeeOther.page("/trips/{code}", trip.code());
    }
    TripTotal total = total(of, TripTotal.BASE);
    // Without another target it is held against its own.
    String against =
        target == null && total == TripTotal.BASE
            ? trip.targetBase().map(Amount::typed).orElse(null)
            : target;
    Faults faults = new Faults();
    Mass read = Targets.read(faults, against);
    if (!faults.none()) {
      model.addAttribute("faults", faults.found());
    }
    Trips.Weighed weighed = trips.weighed(member, trip);
    Weights weights = weighed.weights();
    model.addAttribute("page", TripPage.of(trip, weighed, member.massStyle()));
    model.addAttribute("nights", NightsPanel.of(weighed.nights()));
    model.addAttribute(
        "aim",
        targets
            .of(member, trip, weighed)
            .map(held -> TargetPanel.of(held, member.massStyle()))
            .orElse(null));
    model.addAttribute("target", against == null ? "" : against);
    model.addAttribute("of", total.word());
    model.addAttribute(
        "weight",
        OpenTotals.statement(
            member, total.in(weights).leaves(), total.in(weights).estimate(), read));
    return "trip/trip";
  }

  /** What a total is the sum of; of one system alone if it is named. */
  @GetMapping("/trips/{code}/total")
  Object total(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String of,
      @RequestParam(required = false) @Nullable String system,
      Model model) {
    Trip trip = trips.get(member, code);
    if (!Codes.key(trip.code()).equals(Codes.key(code))) {
      return SeeOther.page("/trips/{code}/total", trip.code());
    }
    Packing packing = trips.packing(member, trip);
    GearSystem only =
        system == null
            ? null
            : GearSystem.of(system)
                .orElseThrow(() -> new NotThere("system as " + Faults.shortened(system)));
    model.addAttribute(
        "page",
        TripTotalPage.of(
            trip,
            packing,
            Weights.of(packing),
            total(of, TripTotal.SKIN_OUT),
            only,
            member.massStyle()));
    return "trip/total";
  }

  private static TripTotal total(@Nullable String word, TripTotal otherwise) {
    return word == null
        ? otherwise
        : TripTotal.of(word).orElseThrow(() -> new NotThere("total as " + Faults.shortened(word)));
  }

  /** For type-ahead: the few parts and rigs that fit what was typed so far, best first. */
  @GetMapping("/trips/suggestions")
  @ResponseBody
  List<Suggestion> suggestions(Member member, @RequestParam(defaultValue = "") String text) {
    List<Part> likeParts = parts.search(member, text, MOST_SUGGESTIONS);
    List<Rig> likeRigs = rigs.search(member, text, MOST_SUGGESTIONS);
    List<Suggestion> found = new ArrayList<>();
    likeParts.forEach(part -> found.add(new Suggestion(part.code(), part.name(), "part")));
    Map<String, Part> named =
        parts.byCodes(member, likeRigs.stream().map(Rig::code).collect(Collectors.toSet()));
    for (Rig rig : likeRigs) {
      boolean shared = named.containsKey(Codes.key(rig.code()));
      found.add(new Suggestion(shared ? "rig " + rig.code() : rig.code(), rig.name(), "rig"));
    }
    return found;
  }
}
