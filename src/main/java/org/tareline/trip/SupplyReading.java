package org.tareline.trip;

import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;
import org.tareline.trip.Trips.SupplyEntry;
import org.tareline.units.Quantity;

/** Reads how consumables of one trip are used up, and notes every fault at its field. */
final class SupplyReading {

  private static final int LONGEST = 200;

  private final Faults faults;

  /** How many days the trip has; 0 where nobody has said. */
  private final int days;

  SupplyReading(Faults faults, int days) {
    this.faults = faults;
    this.days = days;
  }

  /**
   * Reads one.
   *
   * @param at the name of what has it
   * @param isItem whether it is of a free item, which alone is taken by days
   */
  Supply read(String at, SupplyEntry entry, boolean isItem) {
    String densityTyped =
        faults.optionalText(at + ".density", entry.density(), "the mass per volume", LONGEST);
    Quantity density =
        densityTyped == null
            ? null
            : faults.read(at + ".density", () -> Amount.density(densityTyped));
    SortedMap<Integer, Amount> taken = byDay(at + ".taken", entry.taken(), density);
    SortedMap<Integer, Amount> used = byDay(at + ".used", entry.used(), density);
    String perDayTyped =
        faults.optionalText(at + ".perDay", entry.perDay(), "what a day uses", LONGEST);
    Amount perDay = perDayTyped == null ? null : amount(at + ".perDay", perDayTyped, density);
    if (perDay != null && perDay.mass().signum() == 0) {
      faults.add(at + ".perDay", "Give what a day uses as more than nothing, or leave it out.");
    }
    if (perDay != null && !used.isEmpty()) {
      faults.add(at + ".perDay", "Say what is used per day or day by day, not both.");
    }
    if (!isItem && !taken.isEmpty()) {
      faults.add(
          at + ".taken",
          "Leave this out: how much of a part or a rig is taken follows from how many. Only an item is taken by days.");
    }
    if (days == 0
        && (perDay != null || !taken.isEmpty() || !used.isEmpty())
        && faults.found().stream().noneMatch(fault -> fault.field().equals("days"))) {
      faults.add("days", "Give the days: something is taken or used day by day.");
    }
    return new Supply(taken, used, perDay, density == null ? null : densityTyped);
  }

  /** The amount, by volume or not; null with the fault noted. */
  @Nullable Amount amount(String field, String typed, @Nullable Quantity density) {
    return faults.read(field, () -> Amount.of(typed, density));
  }

  private SortedMap<Integer, Amount> byDay(
      String field, @Nullable Map<String, @Nullable String> typed, @Nullable Quantity density) {
    SortedMap<Integer, Amount> byDay = new TreeMap<>();
    if (typed != null) {
      typed.forEach(
          (day, text) -> {
            int number = day(field, day);
            String read =
                number == 0
                    ? null
                    : faults.text(field + "." + day, text, "how much on day " + day, LONGEST);
            Amount amount =
                read == null || read.isEmpty() ? null : amount(field + "." + day, read, density);
            if (amount != null && byDay.put(number, amount) != null) {
              faults.add(field, "Name each day once; day " + number + " is there twice.");
            }
          });
    }
    return byDay;
  }

  /** A day of the trip; 0 with the fault noted. */
  private int day(String field, String typed) {
    if (typed.matches("[0-9]{1,9}")) {
      int day = Integer.parseInt(typed);
      if (day >= 1 && (days == 0 || day <= days)) {
        return day;
      }
      faults.add(
          field + "." + typed,
          "Name a day of the trip, from 1 to "
              + (days == 0 ? "the last" : days)
              + "; read "
              + day
              + ".");
      return 0;
    }
    faults.add(
        field,
        "Name the days by their numbers, the first is 1; read \""
            + Faults.shortened(typed)
            + "\".");
    return 0;
  }
}
