package org.tareline.statics;

/** How much lines and what they hang from give way under a load. */
public final class Give {

  private Give() {}

  /**
   * By how much a line gets longer, in m, taken as straight from no load to its breaking load: ℓ ε
   * T / S (Hooke's law). Real cord is stiffer or softer at its start, and creeps.
   *
   * @param length of the line without load, in m
   * @param tension in N
   * @param breakingStrain how much longer it is when it breaks, as a fraction
   * @param strength what it breaks at, in N
   */
  public static double stretch(
      double length, double tension, double breakingStrain, double strength) {
    return length * breakingStrain * tension / strength;
  }

  /**
   * By what a load at rest is multiplied where it drops onto something elastic: 1 + √(1 + 2 h / δ),
   * twice for a load let go at once (Gere &amp; Goodno, Mechanics of Materials, ch. 2).
   *
   * @param drop h, in m, 0 or more
   * @param atRest δ, by how much it gives under the load at rest, in m
   */
  public static double ofDrop(double drop, double atRest) {
    return 1 + Math.sqrt(1 + 2 * drop / atRest);
  }
}
