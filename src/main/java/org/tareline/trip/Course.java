package org.tareline.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;
import org.tareline.units.Mass;

/**
 * How much there is of a consumable, from the first morning to the last evening. Never less than
 * nothing: what is not there cannot be used.
 *
 * @param mornings of each day, after what was taken before leaving
 * @param evenings of each day
 * @param taken in all
 * @param wanted in all, whether it was there or not
 * @param lack null where there is always enough
 */
record Course(
    List<Mass> mornings, List<Mass> evenings, Mass taken, Mass wanted, @Nullable Lack lack) {

  /**
   * That it gives out.
   *
   * @param gone the day during which the last of it goes, or the first day if there is none
   * @param day the first day that wants more than there is
   * @param there what there is on the morning of that day
   * @param wanted what that day wants
   */
  record Lack(int gone, int day, Mass there, Mass wanted) {}

  Course {
    mornings = List.copyOf(mornings);
    evenings = List.copyOf(evenings);
  }

  /**
   * Follows a consumable through the days.
   *
   * @param atStart what is carried away on the first morning
   */
  static Course of(Mass atStart, Supply supply, int days) {
    long[] wants = wants(atStart, supply, days);
    List<Mass> mornings = new ArrayList<>();
    List<Mass> evenings = new ArrayList<>();
    Mass there = Mass.ZERO;
    Mass taken = Mass.ZERO;
    Mass wanted = Mass.ZERO;
    int gone = 1;
    Lack lack = null;
    for (int day = 1; day <= days; day++) {
      Mass added = added(atStart, supply.taken(), day);
      Mass want = new Mass(wants[day - 1]);
      taken = taken.plus(added);
      wanted = wanted.plus(want);
      there = there.plus(added);
      mornings.add(there);
      if (there.signum() > 0) {
        gone = day;
      }
      if (lack == null && want.compareTo(there) > 0) {
        lack = new Lack(gone, day, there, want);
      }
      there = want.compareTo(there) > 0 ? Mass.ZERO : there.minus(want);
      evenings.add(there);
    }
    return new Course(mornings, evenings, taken, wanted, lack);
  }

  private static Mass added(Mass atStart, SortedMap<Integer, Amount> taken, int day) {
    if (day == 1) {
      return atStart;
    }
    Amount amount = taken.get(day);
    return amount == null ? Mass.ZERO : amount.mass();
  }

  /** What each day wants, in nanograms. */
  private static long[] wants(Mass atStart, Supply supply, int days) {
    long[] wants = new long[days];
    if (supply.perDay() != null) {
      Arrays.fill(wants, supply.perDay().mass().nanograms());
    } else if (!supply.used().isEmpty()) {
      supply.used().forEach((day, amount) -> wants[day - 1] = amount.mass().nanograms());
    } else {
      int from = 1;
      for (int next : supply.taken().tailMap(2).keySet()) {
        spread(added(atStart, supply.taken(), from), wants, from, next);
        from = next;
      }
      spread(added(atStart, supply.taken(), from), wants, from, days + 1);
    }
    return wants;
  }

  /** What is taken lasts evenly until there is more, or to the end; to the last nanogram. */
  private static void spread(Mass lot, long[] wants, int from, int until) {
    int over = until - from;
    long rest = lot.nanograms() % over;
    for (int i = 0; i < over; i++) {
      wants[from - 1 + i] = lot.nanograms() / over + (rest * (i + 1) / over - rest * i / over);
    }
  }
}
