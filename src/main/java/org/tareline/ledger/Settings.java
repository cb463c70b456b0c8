package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import java.math.BigDecimal;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Fibre;
import org.tareline.units.Percent;

/**
 * What a ledger takes for granted where nothing better is known. Percentages stand as they were
 * typed and can all be read.
 *
 * @param designFactorTyped how many times stronger than its load a line is to be, 1 or more
 * @param checkEveryDays how many days after a check of a scale the next is due
 */
@Embeddable
public record Settings(
    @Column(name = "growth_estimated") String growthEstimated,
    @Column(name = "growth_calculated") String growthCalculated,
    @Column(name = "growth_weighed") String growthWeighed,
    @Column(name = "stated_typed") String statedTyped,
    @Column(name = "check_every_days") int checkEveryDays,
    @Column(name = "design_factor") String designFactorTyped,
    @Column(name = "air_nylon") String airNylon,
    @Column(name = "air_polyester") String airPolyester,
    @Column(name = "air_hmpe") String airHmpe,
    @Column(name = "air_cotton") String airCotton,
    @Column(name = "air_wool") String airWool,
    @Column(name = "air_down") String airDown) {

  /** Texts that were read before: a page of parts asks for the same few thousands of times. */
  private static final Map<String, BigDecimal> READ = new ConcurrentHashMap<>();

  private static final int MOST_READ = 1000;

  /**
   * What a new ledger starts with: common practice, no source, but for the air of the day, which is
   * half of each fibre's {@link Fibre#regain()}, and the design factor, the lower bound of Cordage
   * Institute CI 1401.
   */
  static final Settings COMMON_PRACTICE =
      new Settings(
          "20 %",
          "5 %",
          "0 %",
          "5 %",
          365,
          "5",
          halfTheRegain(Fibre.NYLON),
          halfTheRegain(Fibre.POLYESTER),
          halfTheRegain(Fibre.HMPE),
          halfTheRegain(Fibre.COTTON),
          halfTheRegain(Fibre.WOOL),
          halfTheRegain(Fibre.DOWN));

  private static String halfTheRegain(Fibre fibre) {
    return new Percent(BigDecimal.valueOf(fibre.regain()).divide(BigDecimal.valueOf(2))).toString();
  }

  /**
   * What a mass may still grow by until it is weighed, as a fraction of the mass (the mass growth
   * allowance of mass-properties control).
   *
   * @param basis of one thing: a total has the allowances of what it is made of; a thing that is
   *     partly weighed has that of one that is calculated, lest it seem to grow by being weighed
   */
  public BigDecimal growthAllowance(Basis basis) {
    return fraction(growthTyped(basis == Basis.MIXED ? Basis.CALCULATED : basis));
  }

  /** The same as typed, of any basis but mixed. */
  public String growthTyped(Basis basis) {
    return switch (basis) {
      case ESTIMATED -> growthEstimated;
      case CALCULATED -> growthCalculated;
      case WEIGHED -> growthWeighed;
      case MIXED -> throw new IllegalArgumentException("a mixed basis has no allowance of its own");
    };
  }

  /** Half-width given to a stated mass that came without one, as a fraction of it. */
  public BigDecimal statedTolerance() {
    return fraction(statedTyped);
  }

  /** How many times stronger than its load a line is to be. */
  public double designFactor() {
    return Double.parseDouble(designFactorTyped);
  }

  /**
   * Half-width of what the air of the day does to the mass of a thing of this fibre, as a fraction
   * of the mass.
   */
  public BigDecimal air(Fibre fibre) {
    return fraction(airTyped(fibre));
  }

  /** The same as typed. */
  public String airTyped(Fibre fibre) {
    return switch (fibre) {
      case NYLON -> airNylon;
      case POLYESTER -> airPolyester;
      case HMPE -> airHmpe;
      case COTTON -> airCotton;
      case WOOL -> airWool;
      case DOWN -> airDown;
    };
  }

  private static BigDecimal fraction(String typed) {
    if (READ.size() > MOST_READ) {
      READ.clear();
    }
    return READ.computeIfAbsent(typed, text -> Percent.parse(text).fraction());
  }
}
