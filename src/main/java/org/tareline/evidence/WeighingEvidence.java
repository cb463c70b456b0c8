package org.tareline.evidence;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.tareline.units.Mass;

/**
 * What one weighing says of the mass of one piece: n readings, a tare, a count of alike pieces on
 * the pan. Its standard uncertainty is the root sum of squares of
 *
 * <ul>
 *   <li>readings: σ/√n, with σ the larger of the spread s of these readings (ν = n − 1; JCGM
 *       100:2008, 4.2.3) and the scale's recorded repeatability (the scale's ν, in one variance
 *       group per scale); none where there is one reading and nothing on record;
 *   <li>resolution: d/√12 for the load and d/√12 for the zero or tare (F.2.2.1), for repeating a
 *       reading does not make the display finer;
 *   <li>span: value × a/√3 (4.3.7), one source per scale, so that all it weighs shares it.
 * </ul>
 *
 * Readings and resolution are divided by the count: that is what ten on the pan are good for. Span
 * is relative and is not helped by it.
 */
public final class WeighingEvidence {

  private final int readings;
  private final Mass mean;
  private final OptionalDouble spread;
  private final boolean repeatabilityKnown;
  private final Estimate estimate;

  /** One row of the account: a source and what it contributes. */
  public record Term(Source source, double standardUncertaintyInGrams, double shareOfVariance) {

    /** The source in plain words. */
    public String label() {
      return source.label();
    }
  }

  private WeighingEvidence(
      String weighingId, List<Mass> readings, Mass tare, int count, Instrument instrument) {
    BigInteger total = BigInteger.ZERO;
    for (Mass reading : readings) {
      total = total.add(BigInteger.valueOf(reading.nanograms()));
    }
    int n = readings.size();
    BigInteger net =
        total.subtract(BigInteger.valueOf(tare.nanograms()).multiply(BigInteger.valueOf(n)));
    this.readings = n;
    this.mean = quotient(total, n);
    if (net.signum() <= 0) {
      throw new IllegalArgumentException(
          "The readings come to "
              + mean
              + " and the tare is "
              + tare
              + ": nothing is left on the pan. Was the tare taken off by the scale already?");
    }
    Mass value = quotient(net, (long) n * count);
    this.spread = n < 2 ? OptionalDouble.empty() : OptionalDouble.of(spread(readings));
    Mass recorded = instrument.repeatability();
    this.repeatabilityKnown = n > 1 || recorded != null;

    Map<Source, Double> terms = new LinkedHashMap<>();
    double recordedInGrams = recorded == null ? 0 : recorded.inGrams();
    double spreadInGrams = spread.orElse(0);
    double perPiece = 1 / (Math.sqrt(n) * count);
    if (recorded != null && recordedInGrams >= spreadInGrams) {
      Source source =
          new Source(
              weighingId + "/readings",
              "repeatability of " + instrument.name(),
              instrument.repeatabilityDegreesOfFreedom(),
              instrument.id() + "/repeatability");
      terms.put(source, recordedInGrams * perPiece);
    } else if (n > 1) {
      String id = weighingId + "/readings";
      terms.put(new Source(id, "spread of the readings", n - 1, id), spreadInGrams * perPiece);
    }
    double resolution = instrument.readability().inGrams() / Math.sqrt(12) / count;
    terms.put(Source.of(weighingId + "/load", "resolution, at the load"), resolution);
    terms.put(Source.of(weighingId + "/zero", "resolution, at the zero or tare"), resolution);
    terms.put(
        Source.of(instrument.id() + "/span", "span of " + instrument.name()),
        value.inGrams() * instrument.spanHalfWidth() / Math.sqrt(3));
    this.estimate = Estimate.of(value, terms);
  }

  /**
   * The evidence of one weighing. Its value is (mean of the readings − tare) / count, exact until
   * it is rounded half-even, once, to the nanogram.
   *
   * @param weighingId makes its sources its own
   * @param readings one or more, as shown by the scale, the tare still on
   * @param tare what to take off every reading; nothing where the scale took it off itself
   * @param count how many alike pieces lay on the pan, 1 or more
   * @throws IllegalArgumentException if there is no reading, the count is below 1, or the mean of
   *     the readings is not above the tare
   */
  public static WeighingEvidence from(
      String weighingId, List<Mass> readings, Mass tare, int count, Instrument instrument) {
    if (readings.isEmpty()) {
      throw new IllegalArgumentException("A weighing needs at least one reading.");
    }
    if (count < 1) {
      throw new IllegalArgumentException(
          "The count on the pan must be 1 or more, not " + count + ".");
    }
    return new WeighingEvidence(weighingId, readings, tare, count, instrument);
  }

  /** The mass of one piece. */
  public Estimate estimate() {
    return estimate;
  }

  /** What makes up its variance, in the order readings, load, zero, span; shares add up to 1. */
  public List<Term> terms() {
    double variance = estimate.variance();
    List<Term> terms = new ArrayList<>();
    estimate
        .coefficients()
        .forEach((source, grams) -> terms.add(new Term(source, grams, grams * grams / variance)));
    return List.copyOf(terms);
  }

  /** False where there is one reading and the scale has no repeatability on record. */
  public boolean repeatabilityKnown() {
    return repeatabilityKnown;
  }

  /** How many readings there are. */
  public int readings() {
    return readings;
  }

  /** Mean of the readings, the tare still on, half-even to the nanogram. */
  public Mass mean() {
    return mean;
  }

  /** s, the experimental standard deviation of the readings (4.2.2); none of a single one. */
  public OptionalDouble spreadInGrams() {
    return spread;
  }

  private static Mass quotient(BigInteger nanograms, long divisor) {
    return new Mass(
        new BigDecimal(nanograms)
            .divide(BigDecimal.valueOf(divisor), 0, RoundingMode.HALF_EVEN)
            .longValueExact());
  }

  /** From distances to the first reading, which are exact and small where readings are large. */
  private static double spread(List<Mass> readings) {
    double[] distances =
        readings.stream().mapToDouble(each -> each.minus(readings.get(0)).inGrams()).toArray();
    double mean = Arrays.stream(distances).sum() / distances.length;
    double sumOfSquares = 0;
    for (double distance : distances) {
      sumOfSquares += (distance - mean) * (distance - mean);
    }
    return Math.sqrt(sumOfSquares / (distances.length - 1));
  }
}
