package org.tareline.trip.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SortedMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.site.Codes;
import org.tareline.site.Figure;
import org.tareline.trip.Amount;
import org.tareline.trip.PackFit;
import org.tareline.trip.Packing;
import org.tareline.trip.Supply;
import org.tareline.trip.Total;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;
import org.tareline.trip.Warning;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;

/**
 * The page of a trip, every string ready.
 *
 * @param heading the unit of its columns
 * @param days the pack by day; null where the days are not known
 * @param carriers null where nobody is named
 * @param pack null where nobody has given a size of anything
 * @param notWeighed what is yet to be weighed, in words
 * @param warnings what else somebody should look at
 */
record TripPage(
    String code,
    String name,
    @Nullable String when,
    @Nullable String note,
    int revision,
    boolean empty,
    Sentence sentence,
    List<String> notWeighed,
    List<String> warnings,
    String heading,
    String unit,
    List<TotalRow> totals,
    List<SystemRow> systems,
    List<Bag> bags,
    Cell everything,
    @Nullable DaysPanel days,
    @Nullable CarriersPanel carriers,
    @Nullable PackPanel pack,
    @Nullable RankedBars systemBars,
    @Nullable Heaviest heaviest) {

  /** The figures that a maker quotes. */
  record Sentence(
      String totalPack,
      String base,
      String consumables,
      String worn,
      String skinOut,
      String weighed) {}

  /**
   * One of the totals.
   *
   * @param of its word in addresses
   */
  record TotalRow(String of, String name, String gloss, Cell mass, String weighed, boolean sum) {}

  record SystemRow(String word, String name, Cell base, Cell worn, Cell consumables, Cell total) {}

  /** Everything that travels in one bag or pocket. */
  record Bag(String name, Cell mass, List<Row> rows) {}

  /**
   * A line.
   *
   * @param path where its own page is; null of a free item
   * @param count {@code 6 ×}; null of one alone
   * @param notes what else is to be said of it
   */
  record Row(
      @Nullable String path,
      @Nullable String code,
      @Nullable String count,
      String name,
      String travels,
      List<String> notes,
      Cell mass) {}

  /** The heaviest lines, as bars and as a table of the same. */
  record Heaviest(String finding, RankedBars bars, List<Ranked> rows) {}

  record Ranked(int rank, @Nullable String code, String name, Cell mass, String share) {}

  static final String NO_BAG = "In no bag or pocket that has a name";

  private static final String NO_BAG_OF_ONE = "in no bag or pocket that has a name";

  private static final int MOST_RANKED = 10;

  static TripPage of(Trip trip, Trips.Weighed weighed, MassStyle style) {
    Weights weights = weighed.weights();
    return new TripPage(
        trip.code(),
        trip.name(),
        Words.when(trip),
        trip.note().orElse(null),
        trip.revision(),
        weights.lines().isEmpty(),
        sentence(weights, style),
        messages(weighed, true),
        messages(weighed, false),
        style.heading(),
        style.unit().symbol(),
        totals(weights, style),
        systems(weights, style),
        bags(weighed, style),
        Cell.of(weights.skinOut(), style, lineDecimals(weights, style)),
        DaysPanel.of(weights.all(), trip.starts(), style),
        CarriersPanel.of(weights, style),
        PackPanel.of(PackFit.of(weighed.packing(), weights)),
        systemBars(weights, style),
        heaviest(weights, style));
  }

  private static Sentence sentence(Weights weights, MassStyle style) {
    return new Sentence(
        Words.said(weights.totalPack(), style),
        Words.said(weights.base(), style),
        Words.said(weights.consumables(), style),
        Words.said(weights.worn(), style),
        Words.said(weights.skinOut(), style),
        weighed(weights.skinOut()) + " weighed");
  }

  private static String weighed(Total total) {
    return total.lines() - total.unweighedLines() + " of " + total.lines();
  }

  private static List<String> messages(Trips.Weighed weighed, boolean ofWeighing) {
    return weighed.warnings().stream()
        .filter(warning -> (warning.kind() == Warning.Kind.NOT_WEIGHED) == ofWeighing)
        .map(Warning::message)
        .toList();
  }

  private static List<TotalRow> totals(Weights weights, MassStyle style) {
    int decimals =
        Figure.decimals(
            List.of(
                weights.base().estimate(),
                weights.consumables().estimate(),
                weights.totalPack().estimate(),
                weights.worn().estimate(),
                weights.skinOut().estimate()),
            style);
    return Arrays.stream(TripTotal.values())
        .map(
            of -> {
              Total total = of.in(weights);
              return new TotalRow(
                  of.word(),
                  of.pageWords(),
                  of.gloss(),
                  Cell.of(total, style, decimals),
                  weighed(total),
                  of.isSum());
            })
        .toList();
  }

  private static List<SystemRow> systems(Weights weights, MassStyle style) {
    int decimals =
        Figure.decimals(
            weights.bySystem().stream().map(system -> system.total().estimate()).toList(), style);
    return weights.bySystem().stream()
        .map(
            system ->
                new SystemRow(
                    system.system().word(),
                    system.system().pageWords(),
                    Cell.of(system.base(), style, decimals),
                    Cell.of(system.worn(), style, decimals),
                    Cell.of(system.consumables(), style, decimals),
                    Cell.of(system.total(), style, decimals)))
        .toList();
  }

  private static int lineDecimals(Weights weights, MassStyle style) {
    return Figure.decimals(weights.lines().stream().map(Weights.OfLine::estimate).toList(), style);
  }

  private static List<Bag> bags(Trips.Weighed weighed, MassStyle style) {
    List<Packing.Bearer> carriers = weighed.packing().carriers();
    List<Weights.OfLine> all = weighed.weights().lines();
    if (carriers.isEmpty()) {
      return bags("", all, weighed, style);
    }
    List<Bag> bags = new ArrayList<>();
    for (Packing.Bearer carrier : carriers) {
      bags.addAll(
          bags(
              carrier.name() + ": ",
              all.stream().filter(of -> carrier.code().equals(of.line().carrier())).toList(),
              weighed,
              style));
    }
    return bags;
  }

  private static List<Bag> bags(
      String whose, List<Weights.OfLine> of, Trips.Weighed weighed, MassStyle style) {
    int decimals = lineDecimals(weighed.weights(), style);
    List<Bag> bags = new ArrayList<>();
    byBag(of, Weights.OfLine::line)
        .forEach(
            (bag, lines) ->
                bags.add(
                    new Bag(
                        whose + (whose.isEmpty() || !bag.equals(NO_BAG) ? bag : NO_BAG_OF_ONE),
                        mass(lines, style, decimals),
                        lines.stream()
                            .map(line -> row(line, weighed.packing(), style, decimals))
                            .toList())));
    return bags;
  }

  private static @Nullable RankedBars systemBars(Weights weights, MassStyle style) {
    List<RankedBars.Of> masses =
        weights.bySystem().stream()
            .filter(system -> system.total().basis() != null)
            .sorted(
                Comparator.comparing(
                    (Weights.OfSystem system) -> system.total().estimate().value(),
                    Comparator.reverseOrder()))
            .map(
                system ->
                    new RankedBars.Of(
                        system.system().pageWords(),
                        (system.total().atLeast() ? "at least " : "")
                            + style.text(
                                system.total().estimate().value(),
                                Figure.decimals(List.of(system.total().estimate()), style)),
                        system.total().estimate()))
            .toList();
    return masses.isEmpty() ? null : RankedBars.of(masses);
  }

  private static Cell mass(List<Weights.OfLine> lines, MassStyle style, int decimals) {
    List<Estimate> known =
        lines.stream().map(Weights.OfLine::estimate).filter(Objects::nonNull).toList();
    return Cell.of(
        known.isEmpty() ? null : Estimate.sum(known),
        lines.stream().anyMatch(Weights.OfLine::atLeast),
        style,
        decimals);
  }

  /** By bag, in the order in which the bags are met; what is in none comes last. */
  static <T> Map<String, List<T>> byBag(List<T> things, Function<T, Packing.Line> line) {
    Map<String, String> names = new LinkedHashMap<>();
    Map<String, List<T>> bags = new LinkedHashMap<>();
    List<T> loose = new ArrayList<>();
    for (T thing : things) {
      String place = line.apply(thing).place();
      if (place == null) {
        loose.add(thing);
      } else {
        String name = names.computeIfAbsent(Codes.key(place), any -> place);
        bags.computeIfAbsent(name, any -> new ArrayList<>()).add(thing);
      }
    }
    if (!loose.isEmpty()) {
      bags.put(NO_BAG, loose);
    }
    return bags;
  }

  private static Row row(Weights.OfLine of, Packing packing, MassStyle style, int decimals) {
    Packing.Line line = of.line();
    return new Row(
        path(line.content()),
        code(line.content()),
        count(line.quantity()),
        line.content().name(),
        line.carry().pageWords(),
        notes(line, packing),
        Cell.of(of, style, decimals));
  }

  /** What is to be said of a line besides: what stays at home, what serves for what, and when. */
  private static List<String> notes(Packing.Line line, Packing packing) {
    List<String> notes = new ArrayList<>();
    for (Packing.Away away : line.away()) {
      notes.add(
          (away.count() == 1 ? "" : away.count() + "\u00a0× ")
              + away.piece().code()
              + (away.instead() == null
                  ? " stays at home"
                  : " stays at home: "
                      + packing.lines().stream()
                          .filter(other -> other.id().equals(away.instead()))
                          .map(other -> other.content().code())
                          .findFirst()
                          .orElse("something else")
                      + " doubles as it"));
    }
    for (Packing.Line other : packing.lines()) {
      for (Packing.Away away : other.away()) {
        if (line.id().equals(away.instead())) {
          notes.add(
              "doubles as "
                  + (away.count() == 1 ? "" : away.count() + "\u00a0× ")
                  + away.piece().code()
                  + " of "
                  + other.content().code());
        }
      }
    }
    if (line.system() != null) {
      notes.add("counts for " + line.system().pageWords());
    }
    Supply supply = line.supply();
    if (!supply.taken().isEmpty()) {
      notes.add("taken " + byDay(supply.taken()));
    }
    if (!supply.used().isEmpty()) {
      notes.add("used " + byDay(supply.used()));
    } else if (supply.perDay() != null) {
      notes.add("used per day " + supply.perDay().typed());
    }
    return notes;
  }

  private static String byDay(SortedMap<Integer, Amount> amounts) {
    return amounts.entrySet().stream()
        .map(each -> "day " + each.getKey() + ": " + each.getValue().typed())
        .collect(Collectors.joining(", "));
  }

  /** {@code 6 ×}; null of one alone. */
  static @Nullable String count(long quantity) {
    return quantity == 1 ? null : quantity + "\u00a0×";
  }

  private static @Nullable String path(Content content) {
    if (content instanceof Assembly) {
      return "/rigs/{code}";
    }
    return code(content) == null ? null : "/parts/{code}";
  }

  /** The code on its label; a free item has none. */
  static @Nullable String code(Content content) {
    return content.id().startsWith("item:") ? null : content.code();
  }

  private static @Nullable Heaviest heaviest(Weights weights, MassStyle style) {
    List<Weights.OfLine> lines = weights.heaviest(MOST_RANKED);
    if (lines.isEmpty()) {
      return null;
    }
    int decimals = Figure.decimals(lines.stream().map(Weights.OfLine::estimate).toList(), style);
    List<RankedBars.Of> masses = new ArrayList<>();
    List<Ranked> rows = new ArrayList<>();
    for (Weights.OfLine line : lines) {
      Estimate estimate = Objects.requireNonNull(line.estimate());
      Content content = line.line().content();
      masses.add(
          new RankedBars.Of(
              (rows.size() + 1) + ". " + content.name(),
              style.text(estimate.value(), decimals),
              estimate));
      rows.add(
          new Ranked(
              rows.size() + 1,
              code(content),
              content.name(),
              Cell.of(line, style, decimals),
              percent(line.shareOfMass())));
    }
    return new Heaviest(finding(lines, weights, style), RankedBars.of(masses), rows);
  }

  private static String finding(List<Weights.OfLine> lines, Weights weights, MassStyle style) {
    Weights.OfLine first = lines.get(0);
    return first.line().content().name()
        + (first.line().quantity() == 1 ? "" : " (" + first.line().quantity() + " of it)")
        + " weighs most: "
        + Figure.of(Objects.requireNonNull(first.estimate()), style).sentence()
        + ", "
        + percent(first.shareOfMass())
        + "\u00a0% of "
        + (weights.skinOut().atLeast() ? "what is known of the skin-out weight." : "skin-out.");
  }

  private static String percent(double share) {
    return new BigDecimal(100 * share).setScale(0, RoundingMode.HALF_EVEN).toPlainString();
  }
}
