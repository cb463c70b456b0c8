package org.tareline.units;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * A half-width about a nominal value, stated as a share of it ({@code 5 %}) or outright ({@code 2
 * g}); a leading {@code ±} is read too. Never negative.
 */
public final class Tolerance {

  private final String text;
  private final @Nullable Percent percent;
  private final @Nullable Quantity halfWidth;

  private Tolerance(String text, @Nullable Percent percent, @Nullable Quantity halfWidth) {
    this.text = text;
    this.percent = percent;
    this.halfWidth = halfWidth;
  }

  /**
   * Reads a percentage or a quantity.
   *
   * @param text at most 200 characters
   * @param kind what the nominal value is
   * @param defaultUnit the unit of a bare number; null where a unit or a per cent sign must be
   *     written
   * @throws UnreadableQuantity if the text is neither, or negative
   */
  public static Tolerance read(String text, Kind kind, @Nullable Unit defaultUnit) {
    return read(text, kind, defaultUnit, DecimalMark.POINT);
  }

  /**
   * As {@link #read(String, Kind, Unit)}, of a text of which something is known about its decimal
   * mark.
   *
   * @throws UnreadableQuantity as of {@link Quantity#read(String, Kind, Unit, DecimalMark)}
   */
  public static Tolerance read(
      String text, Kind kind, @Nullable Unit defaultUnit, DecimalMark mark) {
    if (text.indexOf('%') >= 0) {
      QuantityReader reader = new QuantityReader(text, null, null, Percent.EXAMPLE).marked(mark);
      return new Tolerance(text.strip(), reader.afterPlusMinus().percent(), null);
    }
    QuantityReader reader = new QuantityReader(text, kind, defaultUnit).marked(mark);
    return new Tolerance(text.strip(), null, reader.afterPlusMinus().one().notNegative());
  }

  /** What was typed, without the white space around it. */
  public String text() {
    return text;
  }

  /** The share of the nominal value, or null where the half-width is stated outright. */
  public @Nullable Percent percent() {
    return percent;
  }

  /**
   * The half-width about a nominal mass, half-even to a whole nanogram.
   *
   * @throws UnreadableQuantity if this was stated outright in another kind
   */
  public Mass ofMass(Mass nominal) {
    return of(Quantity.of(nominal)).mass();
  }

  /**
   * The half-width about a nominal value of any kind, exactly. A share is of the nominal's
   * magnitude.
   *
   * @throws UnreadableQuantity if this was stated outright in another kind
   */
  public Quantity of(Quantity nominal) {
    if (percent != null) {
      Rational share = nominal.base().times(Rational.of(percent.fraction()));
      return new Quantity(
          text, nominal.kind().base(), share.signum() < 0 ? share.negated() : share, List.of());
    }
    return Objects.requireNonNull(halfWidth).require(nominal.kind());
  }

  /** What was typed. */
  @Override
  public String toString() {
    return text;
  }
}
