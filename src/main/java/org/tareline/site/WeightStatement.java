package org.tareline.site;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;
import org.tareline.units.Percent;

/**
 * A weight statement as pages show it: what is known now, what is allowed for what is not weighed,
 * and what is left to a target. Every string is ready.
 *
 * @param unit of its columns
 * @param target null where there is none
 * @param margin null where there is no target
 * @param marginWords the margin in a sentence; null where there is no target
 * @param atLeast whether something has no mass yet and is in none of the figures
 */
public record WeightStatement(
    String unit,
    List<Row> rows,
    String basic,
    String allowance,
    String predicted,
    @Nullable String target,
    @Nullable String margin,
    @Nullable String marginWords,
    boolean atLeast) {

  /** All of one basis. */
  public record Row(String basis, String mass, String allowed, String allowance) {}

  /**
   * What of one basis there is.
   *
   * @param allowed as a fraction of the mass
   */
  public record Part(Basis basis, Mass mass, BigDecimal allowed, Mass allowance) {}

  /**
   * The figures of a statement.
   *
   * @param margin target − predicted; null, as its shares are, where there is no target
   * @param ofTarget the margin in per cent of the target
   * @param ofPredicted the margin in per cent of the predicted mass
   */
  public record Figures(
      Mass basic,
      Mass allowance,
      Mass predicted,
      @Nullable Mass target,
      @Nullable Mass margin,
      @Nullable BigDecimal ofTarget,
      @Nullable BigDecimal ofPredicted) {}

  /** In so many decimals of the style's first unit. */
  public static WeightStatement of(
      List<Part> parts, Figures figures, boolean atLeast, MassStyle style, int decimals) {
    return new WeightStatement(
        style.heading(),
        parts.stream()
            .map(
                part ->
                    new Row(
                        part.basis().pageWords(),
                        style.number(part.mass(), decimals),
                        new Percent(part.allowed()).toString(),
                        style.number(part.allowance(), decimals)))
            .toList(),
        style.number(figures.basic(), decimals),
        style.number(figures.allowance(), decimals),
        style.number(figures.predicted(), decimals),
        figures.target() == null ? null : style.number(figures.target(), decimals),
        figures.margin() == null ? null : style.number(figures.margin(), decimals),
        words(figures, atLeast, style, decimals),
        atLeast);
  }

  private static @Nullable String words(
      Figures figures, boolean atLeast, MassStyle style, int decimals) {
    Mass margin = figures.margin();
    if (margin == null) {
      return null;
    }
    Mass size = margin.signum() < 0 ? margin.negated() : margin;
    return (margin.signum() < 0 ? "Over the target by " : "Under the target by ")
        + (atLeast ? margin.signum() < 0 ? "at least " : "at most " : "")
        + style.text(size, decimals)
        + ": "
        + percent(figures.ofTarget())
        + " of the target"
        + (figures.ofPredicted() == null
            ? ""
            : ", " + percent(figures.ofPredicted()) + " of the predicted mass")
        + ".";
  }

  private static String percent(@Nullable BigDecimal percent) {
    return percent == null
        ? ""
        : percent.abs().setScale(1, RoundingMode.HALF_EVEN).toPlainString() + "\u00a0%";
  }
}
