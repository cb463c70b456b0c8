package org.tareline.trip;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Comfort;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * What is taken along against the cold, held against the coldest night expected: for each carrier
 * and each side of the sleeper by itself, since what is above does not help below. It says what was
 * stated, and never that somebody will be warm.
 *
 * @param coldest the coldest night expected; null where nobody has said
 * @param carriers in their order; one without a name where nobody is named
 */
public record Nights(@Nullable Quantity coldest, List<OfCarrier> carriers) {

  /** What to know of all of it. */
  public static final List<String> NOTES =
      List.of(
          "Temperatures are as makers state them, and people differ: by build and age, by what they"
              + " ate, by how tired and how damp they are, by the wind. None of this says that"
              + " somebody will be warm.",
          "A hammock needs insulation below and above, each by itself: a top quilt and an"
              + " underquilt are not added, and each is held against the night alone.",
          "ISO 23537-1 measures sleeping bags on a mat; it does not cover quilts and hammocks, and"
              + " its words are here those of the maker. What it calls extreme is a risk to health,"
              + " and never taken as something to sleep by.");

  /** What can be said of a side. */
  public enum Verdict {
    /** Nothing is stated for as cold a night. */
    TOO_LITTLE("too-little"),
    /** Something is stated for as cold a night. */
    STATED_FOR_IT("stated-for-it"),
    NOT_KNOWN("not-known");

    private final String word;

    Verdict(String word) {
      this.word = word;
    }

    /** The word in the API. */
    public String word() {
      return word;
    }
  }

  /**
   * What one person takes along.
   *
   * @param carrier null where nobody is named on the trip
   */
  public record OfCarrier(Packing.@Nullable Bearer carrier, List<OfSide> sides) {}

  /**
   * What is taken for one side of a sleeper.
   *
   * @param side null of what was not said to be for any
   * @param words the verdict as a sentence
   * @param things the one stated for the coldest night first, those not known last
   */
  public record OfSide(
      Comfort.@Nullable Side side, Verdict verdict, String words, List<Thing> things) {

    public OfSide {
      things = List.copyOf(things);
    }
  }

  /**
   * A thing against the cold.
   *
   * @param comfort what is stated of it
   * @param margin by how many kelvin it is stated for a colder night than is expected, below zero
   *     where it is stated for a milder one; null where either is not known
   */
  public record Thing(Piece piece, Comfort comfort, @Nullable BigDecimal margin) {

    /** Whether what is stated of it is something to sleep by. */
    boolean counts() {
      return comfort.temperature() != null && comfort.kind() != Comfort.Kind.EXTREME;
    }
  }

  public Nights {
    carriers = List.copyOf(carriers);
  }

  /** Roles of rigs that say for which side a thing is, where it does not say so itself. */
  private static final Map<String, Comfort.Side> SIDES =
      Map.of(
          "top quilt", Comfort.Side.ABOVE,
          "underquilt", Comfort.Side.BELOW,
          "pad", Comfort.Side.BELOW);

  private static final Comfort NOTHING_STATED = new Comfort(null, null, null);

  /** Holds all that is on a trip against the coldest night. */
  static Nights of(Packing packing, @Nullable Quantity coldest) {
    List<OfCarrier> carriers = new ArrayList<>();
    if (packing.carriers().isEmpty()) {
      carriers.add(new OfCarrier(null, sides(packing, packing.lines(), coldest)));
    }
    for (Packing.Bearer carrier : packing.carriers()) {
      carriers.add(
          new OfCarrier(
              carrier,
              sides(
                  packing,
                  packing.lines().stream()
                      .filter(line -> carrier.code().equals(line.carrier()))
                      .toList(),
                  coldest)));
    }
    return new Nights(coldest, carriers);
  }

  private static List<OfSide> sides(
      Packing packing, List<Packing.Line> lines, @Nullable Quantity coldest) {
    Map<Comfort.@Nullable Side, Map<String, Thing>> bySide = new LinkedHashMap<>();
    bySide.put(Comfort.Side.ABOVE, new LinkedHashMap<>());
    bySide.put(Comfort.Side.BELOW, new LinkedHashMap<>());
    for (Packing.Line line : lines) {
      if (line.content() instanceof Piece piece) {
        take(bySide, packing, piece, "", coldest);
      } else if (line.content() instanceof Assembly rig) {
        for (Leaf leaf : RollUp.of(rig, Scope.COMPLETE).leaves()) {
          take(bySide, packing, leaf.piece(), leaf.line().role(), coldest);
        }
      }
    }
    List<OfSide> sides = new ArrayList<>();
    bySide.forEach((side, things) -> sides.add(side(side, things.values(), coldest)));
    return sides;
  }

  private static void take(
      Map<Comfort.@Nullable Side, Map<String, Thing>> bySide,
      Packing packing,
      Piece piece,
      String role,
      @Nullable Quantity coldest) {
    Comfort stated = packing.kind(piece).comfort();
    if (stated == null && !SIDES.containsKey(role)) {
      return;
    }
    Comfort comfort = stated == null ? NOTHING_STATED : stated;
    Comfort.Side side = comfort.side() == null ? SIDES.get(role) : comfort.side();
    Quantity temperature = comfort.temperature();
    bySide
        .computeIfAbsent(side, any -> new LinkedHashMap<>())
        .putIfAbsent(
            piece.id(),
            new Thing(
                piece,
                comfort,
                temperature == null || coldest == null
                    ? null
                    : celsius(coldest)
                        .subtract(celsius(temperature))
                        .round(MathContext.DECIMAL64)));
  }

  private static BigDecimal celsius(Quantity temperature) {
    return new BigDecimal(temperature.in(Unit.CELSIUS).value());
  }

  private static OfSide side(
      Comfort.@Nullable Side side, Iterable<Thing> taken, @Nullable Quantity coldest) {
    List<Thing> things = new ArrayList<>();
    taken.forEach(things::add);
    things.sort(
        Comparator.comparing(
            thing ->
                thing.comfort().temperature() == null
                    ? null
                    : celsius(thing.comfort().temperature()),
            Comparator.nullsLast(Comparator.naturalOrder())));
    Thing warmest = things.stream().filter(Thing::counts).findFirst().orElse(null);
    BigDecimal margin = warmest == null ? null : warmest.margin();
    if (warmest == null) {
      return new OfSide(side, Verdict.NOT_KNOWN, unknown(side, things), things);
    }
    return new OfSide(
        side,
        margin == null
            ? Verdict.NOT_KNOWN
            : margin.signum() < 0 ? Verdict.TOO_LITTLE : Verdict.STATED_FOR_IT,
        stated(warmest)
            + (margin == null || coldest == null
                ? "; how cold the nights will be is not known."
                : margin.signum() < 0
                    ? ", and a night of "
                        + coldest
                        + " is expected: "
                        + kelvin(margin)
                        + " too little."
                    : margin.signum() == 0
                        ? ", just as cold as the coldest night expected, with nothing to spare."
                        : ", " + kelvin(margin) + " below the coldest night expected."),
        things);
  }

  private static String stated(Thing thing) {
    return thing.piece().name()
        + " is stated for nights down to "
        + thing.comfort().temperature()
        + " ("
        + Objects.requireNonNull(thing.comfort().kind()).pageWords()
        + ")";
  }

  /** Steps of a kelvin, to a tenth. */
  private static String kelvin(BigDecimal margin) {
    return margin.abs().setScale(1, RoundingMode.HALF_EVEN).stripTrailingZeros().toPlainString()
        + " K";
  }

  private static String unknown(Comfort.@Nullable Side side, List<Thing> things) {
    String extreme =
        things.stream()
            .filter(thing -> thing.comfort().kind() == Comfort.Kind.EXTREME)
            .map(thing -> thing.piece().name())
            .collect(Collectors.joining(", "));
    if (!extreme.isEmpty()) {
      return "Of "
          + extreme
          + " only the extreme temperature is stated, which is a risk to health and nothing to"
          + " sleep by.";
    }
    return things.isEmpty()
        ? "Nothing is taken that says it insulates "
            + (side == null ? "" : side.word())
            + ": not known."
        : "How cold a night "
            + things.stream().map(thing -> thing.piece().name()).collect(Collectors.joining(", "))
            + (things.size() == 1 ? " is" : " are")
            + " for is not stated.";
  }

  /** What somebody should look at before leaving. */
  List<Warning> warnings() {
    return carriers.stream()
        .flatMap(
            of ->
                of.sides().stream()
                    .filter(side -> coldest != null && tooLittle(side))
                    .map(side -> warning(of.carrier(), side)))
        .toList();
  }

  /** An extreme alone is too little whatever it says. */
  private static boolean tooLittle(OfSide side) {
    return side.verdict() == Verdict.TOO_LITTLE
        || side.things().stream().noneMatch(Thing::counts)
            && side.things().stream().anyMatch(thing -> thing.comfort().temperature() != null);
  }

  private static Warning warning(Packing.@Nullable Bearer carrier, OfSide side) {
    return new Warning(
        Warning.Kind.COLD_NIGHT,
        Stream.of(
                    carrier == null ? null : carrier.name(),
                    side.side() == null ? null : side.side().word())
                .filter(Objects::nonNull)
                .collect(Collectors.joining(", ", "Nights, ", ": "))
            + side.words(),
        side.things().stream().map(thing -> thing.piece().code()).toList(),
        List.of(),
        List.of(),
        List.of(),
        null);
  }
}
