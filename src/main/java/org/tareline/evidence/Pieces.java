package org.tareline.evidence;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.tareline.units.Mass;

/**
 * Alike pieces of a part of which some were weighed one by one: what their spread says of the rest.
 * Each piece that was not weighed is off the mean by an error of its own, so that eight of them are
 * √8 times as unsure as one and not 8 times; only the mean, and what the weighings share, is common
 * to all.
 *
 * <p>Pieces are taken in an order: a rig with so many of the part has those that were weighed
 * first, and twice the same rig is twice the same pieces.
 */
public final class Pieces {

  /** Beyond this many pieces that were not weighed, the rest share one source between them. */
  private static final int OWN_SOURCES = 200;

  private final String id;
  private final String name;
  private final int weighed;
  private final Estimate mean;
  private final OptionalDouble spread;

  private Pieces(String id, String name, List<Estimate> weighed) {
    this.id = id;
    this.name = name;
    this.weighed = weighed.size();
    this.mean = Estimate.sum(weighed).dividedBy(weighed.size());
    this.spread =
        weighed.size() < 2
            ? OptionalDouble.empty()
            : OptionalDouble.of(
                Repeatability.spreadInGrams(weighed.stream().map(Estimate::value).toList()));
  }

  /**
   * The pieces that were weighed, one estimate each.
   *
   * @param id of the part
   * @param name of the part, in plain words for a page
   * @throws IllegalArgumentException if there is none
   */
  public static Pieces of(String id, String name, List<Estimate> weighed) {
    if (weighed.isEmpty()) {
      throw new IllegalArgumentException("None of the pieces of " + name + " was weighed.");
    }
    return new Pieces(id, name, weighed);
  }

  /** How many were weighed. */
  public int weighed() {
    return weighed;
  }

  /** The mean of those that were weighed. */
  public Mass mean() {
    return mean.value();
  }

  /**
   * s, the experimental standard deviation of their masses in grams (JCGM 100:2008, 4.2.2), with ν
   * = weighed − 1; nothing is known of it where one was weighed.
   */
  public OptionalDouble spreadInGrams() {
    return spread;
  }

  /**
   * The mass of one of so many pieces taken together, so that the total is this times the quantity.
   * Where all N that were weighed are in it and no more, that is their sum with the error of the
   * weighings alone. Of more, q − N are not weighed: each has s of its own and the mean they are
   * taken by has s/√N (4.2.3). Of fewer, which of the N they are is not known, and the sum is off
   * by s √(q (N − q)/N), as in sampling without replacement.
   *
   * @param quantity q, 1 or more
   * @throws IllegalArgumentException if it is below 1
   */
  public Estimate each(int quantity) {
    if (quantity < 1) {
      throw new IllegalArgumentException("There must be 1 piece or more, not " + quantity + ".");
    }
    if (spread.isEmpty() || quantity == weighed) {
      return mean;
    }
    double s = spread.getAsDouble();
    Map<Source, Double> variation = new LinkedHashMap<>();
    if (quantity < weighed) {
      variation.put(
          source("which", "which of the pieces of " + name + " it is"),
          s * Math.sqrt((double) quantity * (weighed - quantity) / weighed) / quantity);
    } else {
      int rest = quantity - weighed;
      variation.put(
          source("mean", "mean of the pieces of " + name + " that were weighed"),
          s * rest / Math.sqrt(weighed) / quantity);
      for (int i = 1; i <= Math.min(rest, OWN_SOURCES); i++) {
        variation.put(
            source("piece " + i, "a piece of " + name + " that was not weighed"), s / quantity);
      }
      if (rest > OWN_SOURCES) {
        variation.put(
            source("further pieces", "further pieces of " + name + " that were not weighed"),
            s * Math.sqrt(rest - OWN_SOURCES) / quantity);
      }
    }
    return mean.plus(Estimate.of(Mass.ZERO, variation));
  }

  /** All lean on one finding of s. */
  private Source source(String which, String label) {
    return new Source(id + "/" + which, label, weighed - 1, id + "/pieces");
  }
}
