package org.tareline.evidence;

import java.util.Arrays;
import org.tareline.units.Mass;

/**
 * An adding machine for many estimates that share sources. Every source is numbered once, when its
 * estimate is first laid in; sums then run through one array in which a source has its place, with
 * no look-ups. For one thread at a time.
 *
 * <p>The sum that is running starts at nothing. {@link #add} adds to it, {@link #covariance} asks
 * about it, {@link #take} takes it out and starts the next.
 */
public final class Tally {

  private static final int FIRST_CAPACITY = 16;

  // Numbering: places in `sources` count up from 0; `table` finds a source's place by its hash
  // (open addressing, place + 1, 0 is empty, never more than half full).
  private Source[] sources = new Source[FIRST_CAPACITY];
  private int[] table = new int[4 * FIRST_CAPACITY];
  private int known;

  // The running sum: its value, its coefficients by place, and which places it has touched.
  private Mass value = Mass.ZERO;
  private double[] sum = new double[FIRST_CAPACITY];
  private boolean[] inSum = new boolean[FIRST_CAPACITY];
  private int[] touched = new int[FIRST_CAPACITY];
  private int touchedCount;

  /** An estimate laid into a tally. */
  public static final class Item {
    private final Estimate estimate;
    private final int[] places;

    private Item(Estimate estimate, int[] places) {
      this.estimate = estimate;
      this.places = places;
    }

    /** The estimate itself. */
    public Estimate estimate() {
      return estimate;
    }
  }

  /** Lays an estimate in, without adding it yet. The item is good for this tally only. */
  public Item item(Estimate estimate) {
    int[] places = new int[estimate.size()];
    for (int i = 0; i < places.length; i++) {
      places[i] = place(estimate.source(i));
    }
    return new Item(estimate, places);
  }

  /**
   * Adds so many of an item to the running sum.
   *
   * @throws ArithmeticException if the value overflows; the sum is then as it was before
   */
  public void add(Item item, long factor) {
    value = value.plus(item.estimate.value().times(factor));
    for (int i = 0; i < item.places.length; i++) {
      int place = item.places[i];
      if (!inSum[place]) {
        inSum[place] = true;
        touched[touchedCount++] = place;
      }
      sum[place] += item.estimate.coefficient(i) * factor;
    }
  }

  /** Covariance of an item with the running sum, in g². */
  public double covariance(Item item) {
    double covariance = 0;
    for (int i = 0; i < item.places.length; i++) {
      covariance += item.estimate.coefficient(i) * sum[item.places[i]];
    }
    return covariance;
  }

  /** Takes the running sum out, as an item of this tally, and starts the next at nothing. */
  public Item take() {
    Source[] itsSources = new Source[touchedCount];
    double[] itsCoefficients = new double[touchedCount];
    int[] itsPlaces = new int[touchedCount];
    int size = 0;
    for (int i = 0; i < touchedCount; i++) {
      int place = touched[i];
      if (sum[place] != 0) { // what has cancelled is gone
        itsSources[size] = sources[place];
        itsCoefficients[size] = sum[place];
        itsPlaces[size++] = place;
      }
      sum[place] = 0;
      inSum[place] = false;
    }
    if (size < touchedCount) {
      itsSources = Arrays.copyOf(itsSources, size);
      itsCoefficients = Arrays.copyOf(itsCoefficients, size);
      itsPlaces = Arrays.copyOf(itsPlaces, size);
    }
    Item taken = new Item(new Estimate(value, itsSources, itsCoefficients), itsPlaces);
    value = Mass.ZERO;
    touchedCount = 0;
    return taken;
  }

  private int place(Source source) {
    int at = slot(source);
    if (table[at] != 0) {
      return table[at] - 1;
    }
    if (known == sources.length) {
      grow();
      at = slot(source);
    }
    sources[known] = source;
    table[at] = ++known;
    return known - 1;
  }

  /** Where in the table the source stands, or would. */
  private int slot(Source source) {
    int mask = table.length - 1;
    int hash = source.hashCode();
    int at = (hash ^ hash >>> 16) & mask;
    while (table[at] != 0 && !source.equals(sources[table[at] - 1])) {
      at = at + 1 & mask;
    }
    return at;
  }

  private void grow() {
    int capacity = 2 * sources.length;
    sources = Arrays.copyOf(sources, capacity);
    sum = Arrays.copyOf(sum, capacity);
    inSum = Arrays.copyOf(inSum, capacity);
    touched = Arrays.copyOf(touched, capacity);
    table = new int[4 * capacity];
    for (int place = 0; place < known; place++) {
      table[slot(sources[place])] = place + 1;
    }
  }
}
