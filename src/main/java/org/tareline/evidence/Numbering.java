package org.tareline.evidence;

import java.util.ArrayList;
import java.util.List;

/**
 * Estimates whose sources are numbered together, so that a {@link Tally} can add them with no
 * look-ups. Immutable.
 */
public final class Numbering {

  private final List<Estimate> estimates;
  private final Source[] sources;

  private Numbering(List<Estimate> estimates, Source[] sources) {
    this.estimates = estimates;
    this.sources = sources;
  }

  /** Numbers the sources of these estimates together. */
  public static Numbering of(List<Estimate> estimates) {
    int terms = 0;
    for (Estimate estimate : estimates) {
      terms = Math.addExact(terms, estimate.terms());
    }
    Source[] sources = new Source[terms]; // some too many, where sources are shared
    Index index = new Index(sources);
    List<Estimate> numbered = new ArrayList<>(estimates.size());
    for (Estimate estimate : estimates) {
      int[] numbers = new int[estimate.terms()];
      for (int term = 0; term < numbers.length; term++) {
        numbers[term] = index.number(estimate.source(term));
      }
      numbered.add(estimate.renumbered(sources, numbers));
    }
    return new Numbering(List.copyOf(numbered), sources);
  }

  /** The estimates that were numbered, in their order, and equal to what they were. */
  public List<Estimate> estimates() {
    return estimates;
  }

  Source[] sources() {
    return sources;
  }

  /** Finds the number of a source by open addressing: a map of objects takes twice as long. */
  private static final class Index {
    private final Source[] sources;
    private final int[] table; // number + 1, or 0 where empty; never more than half full
    private int known;

    Index(Source[] sources) {
      this.sources = sources;
      this.table = new int[4 * Integer.highestOneBit(Math.max(1, sources.length))];
    }

    int number(Source source) {
      int mask = table.length - 1;
      int hash = source.hashCode();
      int slot = (hash ^ hash >>> 16) & mask;
      while (table[slot] != 0) {
        if (sources[table[slot] - 1].equals(source)) {
          return table[slot] - 1;
        }
        slot = slot + 1 & mask;
      }
      sources[known] = source;
      table[slot] = ++known;
      return known - 1;
    }
  }
}
