package org.tareline.rollup;

import org.tareline.evidence.Basis;
import org.tareline.units.Percent;

/**
 * What is allowed for the growth of a mass that is not weighed yet, as a part of that mass, by its
 * basis (mass growth allowance: ANSI/AIAA S-120A, from memory).
 */
public record GrowthAllowance(Percent estimated, Percent calculated, Percent weighed) {

  /**
   * 20 % of what is stated, 5 % of what comes from a cut list, nothing of what is weighed: of the
   * size that mass-properties control uses for new, proven and weighed things; common practice, and
   * a ledger may have its own.
   */
  public static final GrowthAllowance USUAL =
      new GrowthAllowance(Percent.parse("20 %"), Percent.parse("5 %"), Percent.parse("0 %"));

  /** The part for a basis; for a mixed one the greatest. */
  public Percent of(Basis basis) {
    return switch (basis) {
      case ESTIMATED -> estimated;
      case CALCULATED -> calculated;
      case WEIGHED -> weighed;
      case MIXED -> max(estimated, max(calculated, weighed));
    };
  }

  private static Percent max(Percent one, Percent other) {
    return one.compareTo(other) < 0 ? other : one;
  }
}
