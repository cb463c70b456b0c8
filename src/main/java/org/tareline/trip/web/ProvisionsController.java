package org.tareline.trip.web;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.provisions.Nutrient;
import org.tareline.provisions.Reckoning;
import org.tareline.rollup.Piece;
import org.tareline.site.Faults;
import org.tareline.site.Figure;
import org.tareline.trip.Carry;
import org.tareline.trip.Figures;
import org.tareline.trip.Packing;
import org.tareline.trip.Provisions;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;
import org.tareline.trip.Weights;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/** Fuel, food and pace of a trip, with what the trip knows filled in. Nothing is kept. */
@Controller
class ProvisionsController {

  /**
   * What was typed.
   *
   * @param work the section that it was sent from
   */
  record Form(
      Provisions.@Nullable FuelEntry fuel,
      Provisions.@Nullable FoodEntry food,
      Provisions.@Nullable PaceEntry pace,
      @Nullable String work) {

    /**
     * What comes of a section that it was sent from, or that more was typed into than a trip knows.
     */
    private <T> List<Reckoning> of(
        String section,
        @Nullable T entry,
        Function<T, Stream<@Nullable String>> unknown,
        Function<T, List<Reckoning>> reckoning,
        Faults faults) {
      if (entry == null
          || !section.equals(work)
              && unknown.apply(entry).allMatch(typed -> typed == null || typed.isBlank())) {
        return List.of();
      }
      List<Reckoning> reckonings = faults.within(section, () -> reckoning.apply(entry));
      return reckonings == null ? List.of() : reckonings;
    }

    List<List<Reckoning>> reckonings(Faults faults) {
      return List.of(
          of(
              "fuel",
              fuel,
              typed -> Stream.of(typed.water(), typed.heat(), typed.efficiency()),
              Provisions::fuel,
              faults),
          of(
              "food",
              food,
              typed ->
                  Stream.concat(
                      Stream.of(typed.energyPerMass()),
                      Arrays.stream(Nutrient.values()).map(typed::of)),
              Provisions::food,
              faults),
          of(
              "pace",
              pace,
              typed -> Stream.of(typed.distance(), typed.ascent(), typed.speed(), typed.slope()),
              Provisions::pace,
              faults));
    }
  }

  private static final Form NOTHING = new Form(null, null, null, null);

  private final Trips trips;

  ProvisionsController(Trips trips) {
    this.trips = trips;
  }

  @GetMapping("/trips/{code}/provisions")
  String page(Member member, @PathVariable String code, Model model) {
    return page(member, code, Map.of(), NOTHING, model);
  }

  /**
   * The page, with what comes of what was typed. It is sent, though nothing is kept, so that what a
   * body weighs stands in no address.
   *
   * @param typed by the names of the fields, to be shown again
   */
  @PostMapping("/trips/{code}/provisions")
  String reckoned(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      @ModelAttribute Form form,
      Model model) {
    return page(member, code, typed, form, model);
  }

  private String page(
      Member member, String code, Map<String, String> typed, Form form, Model model) {
    Trip trip = trips.get(member, code);
    Packing packing = trips.packing(member, trip);
    Weights weights = Weights.of(packing);
    MassStyle style = member.massStyle();
    Food food = Food.of(weights, packing);
    Faults faults = new Faults();
    List<List<Reckoning>> reckonings = form.reckonings(faults);
    model.addAttribute("faults", faults.found());
    model.addAttribute(
        "page",
        ProvisionsPage.of(
            trip,
            typed.isEmpty() ? known(trip, packing, weights, food, style) : typed,
            reckonings,
            carried(packing, weights, style),
            food.hint(),
            style));
    return "trip/provisions";
  }

  /**
   * The food that is taken along.
   *
   * @param mass of what is known of it
   * @param unknown whether some of it has no mass yet
   */
  private record Food(Mass mass, boolean unknown) {

    static Food of(Weights weights, Packing packing) {
      Mass mass = Mass.ZERO;
      boolean unknown = false;
      for (Weights.OfLine of : weights.lines()) {
        Packing.Line line = of.line();
        if (line.carry() == Carry.CONSUMABLE
            && line.content() instanceof Piece piece
            && (line.system() == null ? packing.kind(piece).system() : line.system())
                == GearSystem.FOOD) {
          Estimate all = line.supplied() == null ? of.estimate() : line.supplied();
          unknown |= all == null;
          mass = all == null ? mass : mass.plus(all.value());
        }
      }
      return new Food(mass, unknown);
    }

    String hint() {
      return mass.signum() == 0
          ? "All of it together; nothing on the trip is food with a mass"
          : "All food that is taken, bought on the way too"
              + (unknown ? "; at least, for some of it has no mass yet" : "");
    }
  }

  /** What the trip knows of the fields. */
  private static Map<String, String> known(
      Trip trip, Packing packing, Weights weights, Food food, MassStyle style) {
    Map<String, String> known = new HashMap<>();
    String people = String.valueOf(Math.max(1, packing.carriers().size()));
    String days = trip.days().map(String::valueOf).orElse("1");
    known.put("fuel.people", people);
    known.put("food.people", people);
    known.put("fuel.days", days);
    known.put("food.days", days);
    known.put("fuel.from", "lake");
    if (food.mass().signum() > 0) {
      known.put("food.mass", said(food.mass(), style));
    }
    Packing.Bearer first = packing.carriers().isEmpty() ? null : packing.carriers().get(0);
    if (first != null && first.body() != null) {
      known.put("pace.body", first.body().typed());
    }
    Figures figures =
        weights.byCarrier().isEmpty() ? weights.all() : weights.byCarrier().get(0).figures();
    known.put("pace.load", said(load(figures).value(), style));
    return known;
  }

  /** As the reader of quantities takes it back; in one unit, whatever the style has. */
  private static String said(Mass mass, MassStyle style) {
    MassStyle alone = style.alone();
    return alone.text(mass, alone.decimals(mass)).replace('\u00a0', ' ');
  }

  /** All that somebody has on them in the first morning, or at all where no days are known. */
  private static Estimate load(Figures figures) {
    return figures.days().days().isEmpty()
        ? figures.skinOut().estimate()
        : figures.days().days().get(0).startSkinOut();
  }

  private static List<String> carried(Packing packing, Weights weights, MassStyle style) {
    return weights.byCarrier().isEmpty()
        ? List.of(sentence("Everything", null, weights.all(), style))
        : weights.byCarrier().stream()
            .map(of -> sentence(of.carrier().name(), of.carrier(), of.figures(), style))
            .toList();
  }

  private static String sentence(
      String who, Packing.@Nullable Bearer carrier, Figures figures, MassStyle style) {
    Estimate load = load(figures);
    return who
        + ": "
        + (figures.skinOut().atLeast() ? "at least " : "")
        + style.text(load.value(), Figure.decimals(List.of(load), style))
        + " worn and carried on the first morning"
        + (carrier == null || carrier.body() == null ? "" : "; body " + carrier.body().typed())
        + ".";
  }
}
