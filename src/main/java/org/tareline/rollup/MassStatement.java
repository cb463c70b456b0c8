package org.tareline.rollup;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.units.Mass;

/**
 * A mass in the words of mass-properties control (ANSI/AIAA S-120A, from memory): the basic mass,
 * the growth allowance for what is not weighed, their sum, the predicted mass, and the margin that
 * is left to a target. Exact; an allowance is rounded half-even to the nanogram, once.
 *
 * @param basic the best that is known now, with no allowance
 * @param growthAllowance Σ mass × the part allowed for its basis
 * @param predicted basic + growth allowance
 * @param target what it is to weigh at most; null where there is none
 */
public record MassStatement(
    Mass basic, Mass growthAllowance, Mass predicted, @Nullable Mass target) {

  private static final MathContext DIGITS = new MathContext(15, RoundingMode.HALF_EVEN);

  /**
   * So much, and what is allowed for its growth.
   *
   * @param allowed as a fraction of the mass
   */
  public record Item(Mass mass, BigDecimal allowed) {}

  /**
   * Of these items.
   *
   * @throws ArithmeticException if the sum overflows
   * @throws IllegalArgumentException if the target is not above nothing
   */
  public static MassStatement of(Collection<Item> items, @Nullable Mass target) {
    if (target != null && target.signum() <= 0) {
      throw new IllegalArgumentException("A target is above nothing, not " + target + ".");
    }
    Mass basic = Mass.ZERO;
    BigDecimal allowance = BigDecimal.ZERO;
    for (Item item : items) {
      basic = basic.plus(item.mass());
      allowance = allowance.add(item.mass().grams().multiply(item.allowed()));
    }
    Mass rounded = Mass.fromGrams(allowance);
    return new MassStatement(basic, rounded, basic.plus(rounded), target);
  }

  /**
   * Of those of these leaves that have a mass; the rest are for the caller to name.
   *
   * @param allowed what is allowed for a basis, as a fraction of the mass
   */
  public static MassStatement of(
      Collection<Leaf> leaves, Function<Basis, BigDecimal> allowed, @Nullable Mass target) {
    return of(items(leaves, allowed), target);
  }

  /**
   * All of one basis together.
   *
   * @param allowed as a fraction of the mass
   * @param allowance rounded for itself, so that rows may not add up in the last nanogram
   */
  public record OfBasis(Basis basis, Mass mass, BigDecimal allowed, Mass allowance) {}

  /** The leaves that have a mass, by their basis, in the order of the bases. */
  public static List<OfBasis> byBasis(
      Collection<Leaf> leaves, Function<Basis, BigDecimal> allowed) {
    Map<Basis, Mass> masses = new EnumMap<>(Basis.class);
    for (Leaf leaf : leaves) {
      Basis basis = leaf.piece().basis();
      if (leaf.estimate() != null && basis != null) {
        masses.merge(basis, leaf.estimate().value(), Mass::plus);
      }
    }
    List<OfBasis> rows = new ArrayList<>();
    masses.forEach(
        (basis, mass) -> {
          BigDecimal fraction = allowed.apply(basis);
          rows.add(
              new OfBasis(basis, mass, fraction, Mass.fromGrams(mass.grams().multiply(fraction))));
        });
    return rows;
  }

  private static List<Item> items(Collection<Leaf> leaves, Function<Basis, BigDecimal> allowed) {
    Map<Basis, BigDecimal> known = new EnumMap<>(Basis.class);
    List<Item> items = new ArrayList<>();
    for (Leaf leaf : leaves) {
      Basis basis = leaf.piece().basis();
      if (leaf.estimate() != null && basis != null) {
        items.add(new Item(leaf.estimate().value(), known.computeIfAbsent(basis, allowed)));
      }
    }
    return items;
  }

  /** Target − predicted: below nothing where it is over. Null where there is no target. */
  public @Nullable Mass margin() {
    return target == null ? null : target.minus(predicted);
  }

  /** The margin in per cent of the target, to 15 digits; null where there is no target. */
  public @Nullable BigDecimal marginOfTarget() {
    return marginOf(target);
  }

  /**
   * The margin in per cent of the predicted mass, to 15 digits; null where there is no target, or
   * nothing is predicted.
   */
  public @Nullable BigDecimal marginOfPredicted() {
    return marginOf(predicted);
  }

  private @Nullable BigDecimal marginOf(@Nullable Mass whole) {
    Mass margin = margin();
    return margin == null || whole == null || whole.signum() == 0
        ? null
        : margin.grams().movePointRight(2).divide(whole.grams(), DIGITS);
  }
}
