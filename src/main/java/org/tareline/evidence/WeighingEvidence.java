package org.tareline.evidence;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
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
 *       100:2008, 4.2.3) and the scale's recorded repeatability (its ν, in one variance group per
 *       finding); none where there is one reading and nothing on record;
 *   <li>resolution: d/√12 for the load and d/√12 for the zero or tare (F.2.2.1), for repeating a
 *       reading does not make the display finer;
 *   <li>span, by what is known of it (see {@link Span}), one source per scale and calibration in
 *       force, so that all it weighs shares it: of a stated tolerance, value × a/√3 (4.3.7); of an
 *       accuracy class, MPE/√3 with the error that OIML R 76 permits in service at the mean of the
 *       readings, the tare still on; of a slope b found with check weights, value × u(b)/b, with
 *       the slope's own ν.
 * </ul>
 *
 * A slope corrects the value, which is divided by it (3.2.4), and so are the first two terms; a
 * stated tolerance and a class correct nothing. Readings, resolution and a permitted error are
 * divided by the count: that is what ten on the pan are good for. A span in proportion is not
 * helped by it.
 *
 * <p>OIML R 76 permits its errors for net values too (3.5.3.3, from memory); the load with the tare
 * on is the larger and never permits less. That one permitted error has one sign at all loads is
 * cautious for sums and hopeful for differences of unlike loads, of which the standard promises
 * nothing.
 */
public final class WeighingEvidence {

  private final int readings;
  private final Mass mean;
  private final OptionalDouble spread;
  private final boolean repeatabilityKnown;
  private final Mass uncorrected;
  private final OptionalDouble slope;
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
    this.mean = quotient(total, BigDecimal.valueOf(n));
    if (net.signum() <= 0) {
      throw new IllegalArgumentException(
          "The readings come to "
              + mean
              + " and the tare is "
              + tare
              + ": nothing is left on the pan. Was the tare taken off by the scale already?");
    }
    BigDecimal pieces = BigDecimal.valueOf((long) n * count);
    this.uncorrected = quotient(net, pieces);
    this.slope =
        instrument.span() instanceof Span.Found found
            ? OptionalDouble.of(found.slope())
            : OptionalDouble.empty();
    Mass value =
        slope.isPresent()
            ? quotient(net, pieces.multiply(BigDecimal.valueOf(slope.getAsDouble())))
            : uncorrected;
    this.spread =
        n < 2 ? OptionalDouble.empty() : OptionalDouble.of(Repeatability.spreadInGrams(readings));
    Repeatability recorded = instrument.repeatability();
    this.repeatabilityKnown = n > 1 || recorded != null;

    Map<Source, Double> terms = new LinkedHashMap<>();
    double recordedInGrams = recorded == null ? 0 : recorded.standardDeviation().inGrams();
    double spreadInGrams = spread.orElse(0);
    double each = 1 / (count * slope.orElse(1));
    String ofReadings = weighingId + "/readings";
    if (recorded != null && recordedInGrams >= spreadInGrams) {
      Source source =
          new Source(
              ofReadings,
              "repeatability of " + instrument.name(),
              recorded.degreesOfFreedom(),
              recorded.id());
      terms.put(source, recordedInGrams / Math.sqrt(n) * each);
    } else if (n > 1) {
      Source source = new Source(ofReadings, "spread of the readings", n - 1, ofReadings);
      terms.put(source, spreadInGrams / Math.sqrt(n) * each);
    }
    double resolution = instrument.readability().inGrams() / Math.sqrt(12) * each;
    terms.put(Source.of(weighingId + "/load", "resolution, at the load"), resolution);
    terms.put(Source.of(weighingId + "/zero", "resolution, at the zero or tare"), resolution);
    Span span = instrument.span();
    terms.put(span.source(instrument.name()), span.uncertaintyInGrams(value, mean, count));
    this.estimate = Estimate.of(value, terms);
  }

  /**
   * The evidence of one weighing. Its value is (mean of the readings − tare) / count, divided by
   * the slope of the scale where one was found, exact until it is rounded half-even, once, to the
   * nanogram.
   *
   * @param weighingId makes its sources its own
   * @param readings one or more, as shown by the scale, the tare still on
   * @param tare what to take off every reading; nothing where the scale took it off itself
   * @param count how many alike pieces lay on the pan, 1 or more
   * @throws IllegalArgumentException if there is no reading, the count is below 1, or the mean of
   *     the readings is not above the tare, or beyond the accuracy class of the scale
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

  /**
   * False where there is one reading and the scale has no repeatability on record. The ± then
   * covers resolution and span alone: in simulations, of the totals of eight such readings that
   * scatter by a whole step of the scale it held the truth of about half and not of 95 %, by three
   * steps of a fifth; where they scatter by a fifth of a step, of nine in ten.
   */
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

  /**
   * What one piece weighs before the slope of the scale is taken off, half-even to the nanogram.
   */
  public Mass uncorrected() {
    return uncorrected;
  }

  /** The slope by which the value was divided; none where no check is in force. */
  public OptionalDouble slope() {
    return slope;
  }

  private static Mass quotient(BigInteger nanograms, BigDecimal divisor) {
    return new Mass(
        new BigDecimal(nanograms).divide(divisor, 0, RoundingMode.HALF_EVEN).longValueExact());
  }
}
