package org.tareline.rollup;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Instrument;
import org.tareline.evidence.Numbering;
import org.tareline.evidence.RunningTotal;
import org.tareline.evidence.WeighingEvidence;
import org.tareline.units.Mass;

/**
 * Which parts to weigh next, so that a total or a difference becomes surer: the distinct parts by
 * their share of its variance, and its U once the first, the first two, ... have been weighed on a
 * given scale, one piece, one reading, the value found to be what is known now. That is for a
 * guide: what a scale will show is not known before.
 *
 * @param expandedUncertaintyInGrams U as things are
 * @param candidates those with a share above nothing, the greatest first, equals by code
 * @param missing those that have no mass at all, of which any weighing tells more than these can
 * @param tooHeavy those with a share that the scale cannot weigh
 */
public record NextWeighings(
    double expandedUncertaintyInGrams,
    List<Candidate> candidates,
    List<Piece> missing,
    List<Piece> tooHeavy) {

  /**
   * A part to weigh.
   *
   * @param shareOfVariance Σ over its lines, as of {@link Entry#shareOfVariance()}
   * @param expandedUncertaintyInGramsAfter U once this one and all before it have been weighed
   */
  public record Candidate(
      Piece piece, double shareOfVariance, double expandedUncertaintyInGramsAfter) {}

  /** A part with how often it counts; below 0 where it counts against the result. */
  private record Counted(Piece piece, long count) {}

  public NextWeighings {
    candidates = List.copyOf(candidates);
    missing = List.copyOf(missing);
    tooHeavy = List.copyOf(tooHeavy);
  }

  /**
   * For the total of a roll-up.
   *
   * @param scale whose span source is shared with all that was weighed on it
   * @param capacity the most that the scale can weigh
   */
  public static NextWeighings of(RollUp rollUp, Instrument scale, Mass capacity) {
    Map<String, Counted> counted = new LinkedHashMap<>();
    count(rollUp, 1, counted);
    return of(counted, scale, capacity);
  }

  /** For the difference of two, second − first, to which a part in both does not matter. */
  public static NextWeighings of(RollUp first, RollUp second, Instrument scale, Mass capacity) {
    Map<String, Counted> counted = new LinkedHashMap<>();
    count(first, -1, counted);
    count(second, 1, counted);
    return of(counted, scale, capacity);
  }

  private static void count(RollUp rollUp, int sign, Map<String, Counted> counted) {
    for (Leaf leaf : rollUp.leaves()) {
      counted.merge(
          leaf.piece().id(),
          new Counted(leaf.piece(), sign * leaf.multiplicity()),
          (one, other) -> new Counted(one.piece(), Math.addExact(one.count(), other.count())));
    }
  }

  private static NextWeighings of(
      Map<String, Counted> countedById, Instrument scale, Mass capacity) {
    List<Piece> missing = new ArrayList<>();
    List<Counted> known = new ArrayList<>();
    List<Estimate> estimates = new ArrayList<>(); // as they are, then as they would be
    for (Counted counted : countedById.values()) {
      Estimate each = counted.piece().each();
      if (counted.count() != 0) {
        if (each == null) {
          missing.add(counted.piece());
        } else {
          known.add(counted);
          estimates.add(each);
        }
      }
    }
    for (int i = 0; i < known.size(); i++) {
      estimates.add(weighedOnce(known.get(i).piece(), estimates.get(i), scale));
    }
    Numbering numbering = Numbering.of(estimates);
    RunningTotal total = new RunningTotal(numbering);
    for (int i = 0; i < known.size(); i++) {
      total.add(numbering.estimates().get(i), known.get(i).count());
    }
    RunningTotal.Standing standing = total.standing();
    double variance = standing.standardUncertaintyInGrams() * standing.standardUncertaintyInGrams();

    double[] shares = new double[known.size()];
    List<Integer> order = new ArrayList<>();
    List<Piece> tooHeavy = new ArrayList<>();
    for (int i = 0; i < shares.length; i++) {
      shares[i] =
          variance == 0
              ? 0
              : total.covariance(numbering.estimates().get(i)) * known.get(i).count() / variance;
      if (shares[i] > 0) {
        if (estimates.get(i).value().compareTo(capacity) > 0) {
          tooHeavy.add(known.get(i).piece());
        } else {
          order.add(i);
        }
      }
    }
    order.sort(
        Comparator.<Integer>comparingDouble(i -> -shares[i])
            .thenComparing(i -> known.get(i).piece().code()));

    // From the last back to the first: the total then only becomes less sure, and sums of squares
    // that grow lose no digits.
    for (int i : order) {
      exchange(total, numbering, i, known.size(), known.get(i).count());
    }
    List<Candidate> lastFirst = new ArrayList<>();
    for (int at = order.size() - 1; at >= 0; at--) {
      int i = order.get(at);
      lastFirst.add(
          new Candidate(
              known.get(i).piece(), shares[i], total.standing().expandedUncertaintyInGrams()));
      exchange(total, numbering, i, known.size(), -known.get(i).count());
    }
    Collections.reverse(lastFirst);
    return new NextWeighings(standing.expandedUncertaintyInGrams(), lastFirst, missing, tooHeavy);
  }

  private static void exchange(
      RunningTotal total, Numbering numbering, int at, int known, long count) {
    total.add(numbering.estimates().get(at), -count);
    total.add(numbering.estimates().get(at + known), count);
  }

  /** One reading of one piece that shows what is known; a mass of nothing has none to show. */
  private static Estimate weighedOnce(Piece piece, Estimate each, Instrument scale) {
    return each.value().signum() <= 0
        ? each
        : WeighingEvidence.from("next/" + piece.id(), List.of(each.value()), Mass.ZERO, 1, scale)
            .estimate();
  }
}
