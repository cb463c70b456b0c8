package org.tareline.trip.web;

import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Figure;
import org.tareline.trip.Total;
import org.tareline.trip.Trip;
import org.tareline.units.MassStyle;

/** What pages of trips say in words. */
final class Words {

  private Words() {}

  /** {@code 2027-05-08 to 2027-05-12, 5 days}; null where neither day nor length is set. */
  static @Nullable String when(Trip trip) {
    Optional<LocalDate> ends = trip.ends();
    String days = trip.days().map(count -> count == 1 ? "1 day" : count + " days").orElse(null);
    if (trip.starts().isEmpty()) {
      return days;
    }
    String starts = trip.starts().get().toString();
    if (ends.isEmpty()) {
      return "from " + starts;
    }
    return ends.get().equals(trip.starts().get())
        ? starts
        : starts + " to " + ends.get() + ", " + days;
  }

  /** A total in a sentence: {@code at least 612 g ± 2 g}, {@code nothing}. */
  static String said(Total total, MassStyle style) {
    if (total.lines() == 0) {
      return "nothing";
    }
    if (total.basis() == null) {
      return "not weighed yet";
    }
    return (total.atLeast() ? "at least " : "") + Figure.of(total.estimate(), style).sentence();
  }
}
