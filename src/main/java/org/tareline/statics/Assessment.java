package org.tareline.statics;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.units.Range;

/**
 * Elements held against what they carry: factor = strength × termination / load, to be the design
 * factor or more (Cordage Institute CI 1401, 4: design factor = minimum breaking strength / working
 * load).
 *
 * @param checked in the order they were given
 * @param verdict of the whole: not known where that of any element is, or where there is none
 */
public record Assessment(List<Checked> checked, Verdict verdict) {

  /**
   * A double computed both ways may be off in its last digits; a factor is not refused for that.
   */
  private static final double ROUNDING = 1e-9;

  /** What can be said of an element. */
  public enum Verdict {
    MEETS("meets"),
    BELOW("below"),
    NOT_KNOWN("not known");

    private final String word;

    Verdict(String word) {
      this.word = word;
    }

    /** The word in API and on pages. */
    public String word() {
      return word;
    }
  }

  /**
   * An element with what it carries.
   *
   * @param load in N; null where the hang does not say
   * @param factor null where the strength or the load is not known; without end where nothing is
   *     carried
   * @param wanted what the factor is held against
   * @param verdict meets only where the low end of the factor does
   */
  public record Checked(
      Element element,
      @Nullable Range load,
      @Nullable Range factor,
      double wanted,
      Verdict verdict) {

    static Checked of(
        Element element, @Nullable Range load, @Nullable Range strength, double wanted) {
      Range factor = load == null || strength == null ? null : strength.over(load);
      return new Checked(
          element,
          load,
          factor,
          wanted,
          factor == null
              ? Verdict.NOT_KNOWN
              : factor.low() >= wanted * (1 - ROUNDING) ? Verdict.MEETS : Verdict.BELOW);
    }
  }

  /**
   * Holds elements against the loads of a hang.
   *
   * @param edge greatest pull in one edge of the body, in N; null where it is not known
   * @param designFactor 1 or more
   */
  public static Assessment of(
      Hang.Loads loads, @Nullable Range edge, List<Element> elements, double designFactor) {
    List<Checked> checked =
        elements.stream().map(element -> check(loads, edge, element, designFactor)).toList();
    // A bar that bows out under its load fails whatever the lines can hold, named or not.
    boolean buckles =
        loads.ends().stream()
            .map(Hang.EndLoads::bar)
            .anyMatch(bar -> bar != null && bar.factor() != null && bar.factor().low() < 1);
    return new Assessment(
        checked,
        checked.isEmpty() || any(checked, Verdict.NOT_KNOWN)
            ? Verdict.NOT_KNOWN
            : buckles || any(checked, Verdict.BELOW) ? Verdict.BELOW : Verdict.MEETS);
  }

  private static boolean any(List<Checked> checked, Verdict verdict) {
    return checked.stream().anyMatch(one -> one.verdict() == verdict);
  }

  private static Checked check(
      Hang.Loads loads, @Nullable Range edge, Element element, double designFactor) {
    Range alone = element.strength();
    Range strength = alone == null ? null : alone.times(element.termination());
    double wanted = element.limit() ? 1 : designFactor;
    return switch (element.place()) {
      case LINE -> Checked.of(element, loads.tension(), strength, wanted);
      case LEG -> Checked.of(element, loads.legTension(), strength, wanted);
      case RIDGE_LINE -> Checked.of(element, loads.ridge(), strength, wanted);
      case BODY_EDGE -> Checked.of(element, edge, strength, wanted);
      case BAR -> bar(loads, element, strength, wanted);
    };
  }

  /** The bar that is nearer to its limit: by its own strength or, where that is less, by Euler. */
  private static Checked bar(
      Hang.Loads loads, Element element, @Nullable Range strength, double wanted) {
    Checked nearest = null;
    for (Hang.EndLoads end : loads.ends()) {
      Hang.BarLoads bar = end.bar();
      if (bar != null) {
        Range pressed = bar.compression().max(Range.of(0));
        Checked here = Checked.of(element, pressed, lesser(strength, bar.bucklingLoad()), wanted);
        nearest = nearest == null || isNearer(here, nearest) ? here : nearest;
      }
    }
    return nearest == null ? Checked.of(element, null, strength, wanted) : nearest;
  }

  private static boolean isNearer(Checked one, Checked other) {
    return one.factor() == null
        || other.factor() != null && one.factor().low() < other.factor().low();
  }

  private static @Nullable Range lesser(@Nullable Range one, @Nullable Range other) {
    if (one == null || other == null) {
      return one == null ? other : one;
    }
    return new Range(
        Math.min(one.low(), other.low()),
        Math.min(one.nominal(), other.nominal()),
        Math.min(one.high(), other.high()));
  }

  /** The one with the least factor among those that are known and carry something, or null. */
  public @Nullable Checked least() {
    Checked least = null;
    double lowest = Double.POSITIVE_INFINITY;
    for (Checked one : checked) {
      if (one.factor() != null && one.factor().nominal() < lowest) {
        least = one;
        lowest = one.factor().nominal();
      }
    }
    return least;
  }

  /**
   * The least share of what is wanted that any known element has at its low end: 1 or more where
   * all of them meet it; without end where none is known.
   */
  public double leastShare() {
    return checked.stream()
        .filter(one -> one.factor() != null)
        .mapToDouble(one -> Objects.requireNonNull(one.factor()).low() / one.wanted())
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }
}
