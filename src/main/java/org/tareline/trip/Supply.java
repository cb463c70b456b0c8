package org.tareline.trip;

import java.util.Collections;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * How there comes to be more and less of a consumable on the way, by days from 1.
 *
 * @param taken what is added before leaving on a day, on the first at the start; empty where all of
 *     it is the mass that the line has
 * @param used what is used during a day; empty where that is not said day by day
 * @param perDay used every day alike; where neither is said, it is spread evenly
 * @param densityTyped mass per volume of what is given by volume; null of water
 */
public record Supply(
    SortedMap<Integer, Amount> taken,
    SortedMap<Integer, Amount> used,
    @Nullable Amount perDay,
    @Nullable String densityTyped) {

  /** All of it is there at the start, and spread evenly. */
  public static final Supply EVEN = new Supply(new TreeMap<>(), new TreeMap<>(), null, null);

  public Supply {
    taken = Collections.unmodifiableSortedMap(new TreeMap<>(taken));
    used = Collections.unmodifiableSortedMap(new TreeMap<>(used));
  }
}
