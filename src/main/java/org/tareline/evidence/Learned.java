package org.tareline.evidence;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tareline.units.Mass;

/**
 * What things that were calculated with some figure, and weighed once they were made, say of that
 * figure: each says that it should be figure × weighed / calculated, and together they say the mean
 * of that, each weighted by 1/u² (see {@link Pooled}).
 *
 * <p>Relative uncertainties go through the quotient with their sign (JCGM 100:2008, 5.1.2 and
 * 5.2.2). So the error of the figure itself drops out as far as the thing was calculated with it:
 * of a thing wholly of one cloth its size and its weighing say what the cloth weighs, whatever was
 * printed. What was calculated with other figures leaves their errors in, by their share.
 */
public final class Learned {

  /**
   * A thing that was made.
   *
   * @param calculated above 0
   */
  public record Made(Estimate calculated, Estimate weighed) {}

  private final Estimate figure;
  private final List<Estimate> findings;
  private final Pooled pooled;

  /**
   * @param id of what the figure is of
   * @param label of the scatter of the things, in plain words for a page
   * @param figure above 0, with the sources that the calculated masses have from it
   * @throws IllegalArgumentException if nothing was made
   */
  public Learned(String id, String label, Estimate figure, List<Made> made) {
    this.figure = figure;
    this.findings = made.stream().map(each -> finding(figure, each)).toList();
    this.pooled = Pooled.of(id, label, findings);
  }

  /** What each thing says that the figure should be, in their order. */
  public List<Estimate> findings() {
    return findings;
  }

  /** What they say together; as unsure as they are scattered where they do not agree. */
  public Estimate value() {
    return pooled.estimate();
  }

  /** Whether what is known of their errors explains how far apart they are. */
  public boolean agree() {
    return pooled.agree();
  }

  /** By how much the figure has to be multiplied to be as much as that: weighed / calculated. */
  public double ratio(Estimate finding) {
    return finding.value().inGrams() / figure.value().inGrams();
  }

  /** The standard uncertainty of that factor, the figure taken as the number it is. */
  public double standardUncertainty(Estimate finding) {
    return finding.standardUncertaintyInGrams() / figure.value().inGrams();
  }

  private static Estimate finding(Estimate figure, Made made) {
    BigDecimal grams =
        figure
            .value()
            .grams()
            .multiply(made.weighed().value().grams())
            .divide(made.calculated().value().grams(), new MathContext(34, RoundingMode.HALF_EVEN));
    Mass value = Mass.fromGrams(grams);
    Map<Source, Double> relative = new LinkedHashMap<>();
    add(relative, figure, 1);
    add(relative, made.weighed(), 1);
    add(relative, made.calculated(), -1);
    relative.replaceAll((source, share) -> share * value.inGrams());
    return Estimate.of(value, relative);
  }

  private static void add(Map<Source, Double> relative, Estimate estimate, int sign) {
    double grams = estimate.value().inGrams();
    estimate
        .coefficients()
        .forEach((source, each) -> relative.merge(source, sign * each / grams, Double::sum));
  }
}
