package org.tareline.site;

import java.util.Collection;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * A mass as a page shows it, in the style its reader picked; every string is ready.
 *
 * @param exact the exact grams, for {@code <data value>}
 * @param number as in a column whose heading names the unit: {@code 612.4}
 * @param plusMinus its expanded uncertainty in the same way: {@code ± 1.9}
 * @param sentence with its unit and uncertainty: {@code 612.4 g ± 1.9 g}
 */
public record Figure(String exact, String number, String plusMinus, String sentence) {

  /** A figure by itself: as many decimals as its uncertainty asks for. */
  public static Figure of(Estimate estimate, MassStyle style) {
    Mass uncertainty = estimate.expandedUncertainty();
    return of(
        estimate,
        style,
        uncertainty.signum() == 0
            ? style.decimals(estimate.value())
            : style.decimals(uncertainty, significantFigures(uncertainty, style)));
  }

  /** A figure in a column whose figures all have so many decimals. */
  public static Figure of(Estimate estimate, MassStyle style, int decimals) {
    Mass uncertainty = estimate.expandedUncertainty();
    return new Figure(
        estimate.value().grams().toPlainString(),
        style.number(estimate.value(), decimals),
        "± " + style.number(uncertainty, decimals),
        style.withUncertainty(
            estimate.value(), uncertainty, significantFigures(uncertainty, style)));
  }

  /**
   * Two where the first is a 1, which alone could be off by half; else one (GUM 7.2.6 allows two at
   * most; when to use the second is common practice, no source).
   */
  private static int significantFigures(Mass uncertainty, MassStyle style) {
    return uncertainty.signum() > 0
            && style
                    .number(uncertainty, style.decimals(uncertainty, 2))
                    .chars()
                    .filter(c -> c >= '1' && c <= '9')
                    .findFirst()
                    .orElse(0)
                == '1'
        ? 2
        : 1;
  }

  /** A figure, or null where nothing is known. */
  public static @Nullable Figure orNull(
      @Nullable Estimate estimate, MassStyle style, int decimals) {
    return estimate == null ? null : of(estimate, style, decimals);
  }

  /**
   * The decimals of a column: enough for the surest of its figures, to one significant figure of
   * its uncertainty, but no more than about a milligram's worth.
   */
  public static int decimals(Collection<? extends @Nullable Estimate> column, MassStyle style) {
    int finest = style.decimals(Mass.ZERO, 1);
    return column.stream()
        .filter(Objects::nonNull)
        .mapToInt(
            estimate -> {
              Mass uncertainty = estimate.expandedUncertainty();
              return uncertainty.signum() == 0
                  ? style.decimals(estimate.value())
                  : style.decimals(uncertainty, 1);
            })
        .map(decimals -> Math.min(decimals, finest))
        .max()
        .orElse(0);
  }
}
