package org.tareline.rollup;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
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

  private static final double HELPS = 0.999;

  /**
   * A part to weigh.
   *
   * @param shareOfVariance Σ over its lines, as of {@link Entry#shareOfVariance()}
   * @param expandedUncertaintyInGramsAfter U once this one and all before it have been weighed
   */
  public record Candidate(
      Piece piece, double shareOfVariance, double expandedUncertaintyInGramsAfter) {}

  /**
   * A part with all that it adds to the result.
   *
   * @param count below 0 where it counts against the result
   * @param adds one for each of its lines, for one piece of many may be surer than one of few
   */
  private record Counted(Piece piece, long count, List<Estimate> adds) {

    Counted with(Counted other) {
      List<Estimate> both = new ArrayList<>(adds);
      both.addAll(other.adds);
      return new Counted(piece, Math.addExact(count, other.count), both);
    }
  }

  public NextWeighings {
    candidates = List.copyOf(candidates);
    missing = List.copyOf(missing);
    tooHeavy = List.copyOf(tooHeavy);
  }

  /** Which parts are candidates. */
  public enum Which {
    /** All that have a share in the doubt. */
    ALL,
    /** Those of which a weighing by itself would make U smaller by a thousandth or more. */
    THAT_HELP
  }

  /**
   * What they would be weighed on.
   *
   * @param instrument whose span source is shared with all that was weighed on it
   * @param capacity the most that it can weigh
   * @param besides what makes one piece unsure besides the scale, such as the air of the day: an
   *     error, and no mass
   */
  public record Scale(Instrument instrument, Mass capacity, Function<Piece, Estimate> besides) {}

  /** For the total of a roll-up. */
  public static NextWeighings of(RollUp rollUp, Scale scale, Which which) {
    Map<String, Counted> counted = new LinkedHashMap<>();
    count(rollUp, 1, counted);
    return of(counted, scale, which);
  }

  /** For the difference of two, second − first, to which a part in both does not matter. */
  public static NextWeighings of(RollUp first, RollUp second, Scale scale, Which which) {
    Map<String, Counted> counted = new LinkedHashMap<>();
    count(first, -1, counted);
    count(second, 1, counted);
    return of(counted, scale, which);
  }

  private static void count(RollUp rollUp, int sign, Map<String, Counted> counted) {
    for (Leaf leaf : rollUp.leaves()) {
      Estimate adds = leaf.estimate();
      counted.merge(
          leaf.piece().id(),
          new Counted(
              leaf.piece(),
              sign * leaf.multiplicity(),
              adds == null ? List.of() : List.of(adds.times(sign))),
          Counted::with);
    }
  }

  /** As it is, and as it would be. */
  private record Exchange(Piece piece, Estimate now, Estimate then, double share) {}

  private static NextWeighings of(Map<String, Counted> countedById, Scale scale, Which which) {
    List<Piece> missing = new ArrayList<>();
    List<Counted> known = new ArrayList<>();
    List<Estimate> estimates = new ArrayList<>(); // of each as it is, then as it would be
    for (Counted counted : countedById.values()) {
      Estimate each = counted.piece().each();
      if (each != null) {
        known.add(counted);
        estimates.add(Estimate.sum(counted.adds()));
        estimates.add(weighedOnce(counted.piece(), each, scale).times(counted.count()));
      } else if (counted.count() != 0) {
        missing.add(counted.piece());
      }
    }
    Numbering numbering = Numbering.of(estimates);
    RunningTotal total = new RunningTotal(numbering);
    for (int i = 0; i < known.size(); i++) {
      total.add(numbering.estimates().get(2 * i), 1);
    }
    RunningTotal.Standing standing = total.standing();
    double variance = standing.standardUncertaintyInGrams() * standing.standardUncertaintyInGrams();

    List<Exchange> exchanges = new ArrayList<>();
    List<Piece> tooHeavy = new ArrayList<>();
    for (int i = 0; i < known.size() && variance > 0; i++) {
      Piece piece = known.get(i).piece();
      Estimate now = numbering.estimates().get(2 * i);
      double share = total.covariance(now) / variance;
      if (share > 0 && isHeavier(piece, scale.capacity())) {
        tooHeavy.add(piece);
      } else if (share > 0) {
        Exchange exchange = new Exchange(piece, now, numbering.estimates().get(2 * i + 1), share);
        if (which == Which.ALL || helps(exchange, total, standing)) {
          exchanges.add(exchange);
        }
      }
    }
    exchanges.sort(
        Comparator.comparingDouble(Exchange::share)
            .reversed()
            .thenComparing(exchange -> exchange.piece().code()));

    // From the last back to the first: the total then mostly becomes less sure, and sums of squares
    // that grow lose no digits.
    for (Exchange exchange : exchanges) {
      total.add(exchange.now(), -1);
      total.add(exchange.then(), 1);
    }
    List<Candidate> candidates = new ArrayList<>();
    Collections.reverse(exchanges);
    for (Exchange exchange : exchanges) {
      candidates.add(
          new Candidate(
              exchange.piece(), exchange.share(), total.standing().expandedUncertaintyInGrams()));
      total.add(exchange.then(), -1);
      total.add(exchange.now(), 1);
    }
    Collections.reverse(candidates);
    return new NextWeighings(standing.expandedUncertaintyInGrams(), candidates, missing, tooHeavy);
  }

  private static boolean helps(Exchange exchange, RunningTotal total, RunningTotal.Standing now) {
    total.add(exchange.now(), -1);
    double after = total.with(exchange.then()).expandedUncertaintyInGrams();
    total.add(exchange.now(), 1);
    return after < HELPS * now.expandedUncertaintyInGrams();
  }

  private static boolean isHeavier(Piece piece, Mass capacity) {
    return piece.each() != null && piece.each().value().compareTo(capacity) > 0;
  }

  /** One reading of one piece that shows what is known, where the scale can show it. */
  private static Estimate weighedOnce(Piece piece, Estimate each, Scale scale) {
    return each.value().signum() <= 0 || isHeavier(piece, scale.capacity())
        ? each
        : WeighingEvidence.from(
                "next/" + piece.id(), List.of(each.value()), Mass.ZERO, 1, scale.instrument())
            .estimate()
            .plus(scale.besides().apply(piece));
  }
}
