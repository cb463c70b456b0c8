package org.tareline.rollup;

import java.util.List;
import java.util.function.Function;
import org.tareline.evidence.Estimate;

/**
 * A rig weighed whole against the sum of its parts. The residual, whole minus parts, has its own
 * uncertainty by the algebra of {@link Estimate}: a scale that weighed both the whole and its parts
 * shares its span with itself, so the usual score ζ = (x − X)/√(u_x² + u_X²) of ISO 13528, which
 * wants independent figures, becomes residual / u(residual).
 *
 * <p>Where they do not agree, every single cause that {@link Explanation.Cause} names is tried on
 * every line; pairs of causes are not. Those are told that would make whole and parts agree, or
 * would at least halve the residual, the smallest |ζ| first; among equals the order of the causes,
 * then codes. Nothing is changed by it.
 *
 * @param whole as weighed
 * @param rolledUp the sum of what is known of the parts
 * @param residual whole − rolled up
 * @param zeta residual / u(residual); infinite where something is left over that has no error, 0
 *     where nothing is left over
 * @param explanations at most {@link #MOST}; none unless they disagree
 * @param more whether there are further explanations that fit less well
 */
public record Reconciliation(
    Estimate whole,
    Estimate rolledUp,
    Estimate residual,
    double zeta,
    Agreement agreement,
    List<Piece> missing,
    List<Explanation> explanations,
    boolean more) {

  /** The most explanations that are told. */
  public static final int MOST = 100;

  /** Whether whole and parts agree. */
  public enum Agreement {
    /** |residual| ≤ U(residual). */
    AGREES,
    DISAGREES,
    /** A part has no mass, and may be what is left over. */
    CANNOT_TELL
  }

  public Reconciliation {
    missing = List.copyOf(missing);
    explanations = List.copyOf(explanations);
  }

  /**
   * Holds a whole against its parts.
   *
   * @param whole the estimate of its weighing, under the scope of the roll-up
   * @param ofWhole how that came about
   * @param ofPiece how the mass of a piece came about
   * @throws ArithmeticException if the residual overflows
   */
  public static Reconciliation of(
      RollUp rollUp, Estimate whole, Provenance ofWhole, Function<Piece, Provenance> ofPiece) {
    Estimate residual = whole.minus(rollUp.estimate());
    Agreement agreement = agreement(residual, rollUp.atLeast());
    Causes causes = new Causes(rollUp, residual);
    if (agreement == Agreement.DISAGREES) {
      causes.search(ofWhole, ofPiece);
    }
    List<Explanation> found = causes.bestFirst(MOST + 1);
    return new Reconciliation(
        whole,
        rollUp.estimate(),
        residual,
        zeta(residual.value().inGrams(), residual.standardUncertaintyInGrams()),
        agreement,
        rollUp.missing(),
        found.subList(0, Math.min(MOST, found.size())),
        found.size() > MOST);
  }

  /**
   * Whether a whole and its parts agree.
   *
   * @param residual whole − parts
   * @param atLeast whether a part has no mass
   */
  public static Agreement agreement(Estimate residual, boolean atLeast) {
    if (!atLeast) {
      return agrees(residual) ? Agreement.AGREES : Agreement.DISAGREES;
    }
    // What has no mass can only add to the parts, so a whole that is too light stays too light.
    boolean tooLight = residual.value().signum() < 0 && !agrees(residual);
    return tooLight ? Agreement.DISAGREES : Agreement.CANNOT_TELL;
  }

  static boolean agrees(Estimate residual) {
    return Math.abs(residual.value().inGrams()) <= residual.expandedUncertaintyInGrams();
  }

  static double zeta(double grams, double standardUncertaintyInGrams) {
    return grams == 0 ? 0 : grams / standardUncertaintyInGrams;
  }
}
