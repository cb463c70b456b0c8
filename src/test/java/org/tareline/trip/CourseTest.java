package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.units.Mass;

/** Consumables from day to day, by hand and against a sum over single events. */
class CourseTest {

  private static Amount grams(long grams) {
    return new Amount(new Mass(grams * 1_000_000_000L), grams + " g");
  }

  private static SortedMap<Integer, Amount> byDay(long... daysAndGrams) {
    SortedMap<Integer, Amount> byDay = new TreeMap<>();
    for (int i = 0; i < daysAndGrams.length; i += 2) {
      byDay.put((int) daysAndGrams[i], grams(daysAndGrams[i + 1]));
    }
    return byDay;
  }

  private static Supply supply(
      SortedMap<Integer, Amount> taken, SortedMap<Integer, Amount> used, @Nullable Amount perDay) {
    return new Supply(taken, used, perDay, null);
  }

  private static List<Double> inGrams(List<Mass> masses) {
    return masses.stream().map(Mass::inGrams).toList();
  }

  @Test
  void food_for_four_days_spread_evenly_is_gone_on_the_last_evening() {
    Course course = Course.of(grams(1000).mass(), Supply.EVEN, 4);

    assertThat(inGrams(course.mornings())).containsExactly(1000.0, 750.0, 500.0, 250.0);
    assertThat(inGrams(course.evenings())).containsExactly(750.0, 500.0, 250.0, 0.0);
    assertThat(course.lack()).isNull();
  }

  @Test
  void what_cannot_be_shared_out_to_the_nanogram_is_gone_on_the_last_evening_all_the_same() {
    Course course = Course.of(new Mass(1_000_000_001L), Supply.EVEN, 7);

    assertThat(course.evenings().get(6)).isEqualTo(Mass.ZERO);
    assertThat(course.wanted()).isEqualTo(new Mass(1_000_000_001L));
  }

  @Test
  void each_lot_lasts_evenly_until_there_is_more() {
    SortedMap<Integer, Amount> taken = byDay(1, 1000, 3, 1800);

    Course course = Course.of(grams(1000).mass(), supply(taken, byDay(), null), 5);

    assertThat(inGrams(course.mornings())).containsExactly(1000.0, 500.0, 1800.0, 1200.0, 600.0);
    assertThat(inGrams(course.evenings())).containsExactly(500.0, 0.0, 1200.0, 600.0, 0.0);
    assertThat(course.taken()).isEqualTo(grams(2800).mass());
    assertThat(course.lack()).isNull();
  }

  @Test
  void water_taken_and_used_by_days_is_what_is_left_and_what_is_added() {
    SortedMap<Integer, Amount> taken = byDay(1, 2000, 2, 1500, 3, 500);
    SortedMap<Integer, Amount> used = byDay(1, 1500, 2, 2000, 3, 300);

    Course course = Course.of(grams(2000).mass(), supply(taken, used, null), 3);

    assertThat(inGrams(course.mornings())).containsExactly(2000.0, 2000.0, 500.0);
    assertThat(inGrams(course.evenings())).containsExactly(500.0, 0.0, 200.0);
  }

  @Test
  void what_gives_out_names_the_day_it_is_gone_and_the_day_that_goes_without() {
    Course middle = Course.of(grams(500).mass(), supply(byDay(), byDay(), grams(200)), 5);
    assertThat(middle.lack())
        .isEqualTo(new Course.Lack(3, 3, grams(100).mass(), grams(200).mass()));
    assertThat(inGrams(middle.evenings())).containsExactly(300.0, 100.0, 0.0, 0.0, 0.0);

    Course evening = Course.of(grams(600).mass(), supply(byDay(), byDay(), grams(200)), 5);
    assertThat(evening.lack()).isEqualTo(new Course.Lack(3, 4, Mass.ZERO, grams(200).mass()));

    Course never = Course.of(Mass.ZERO, supply(byDay(2, 300), byDay(1, 100), null), 3);
    assertThat(never.lack()).isEqualTo(new Course.Lack(1, 1, Mass.ZERO, grams(100).mass()));
    assertThat(inGrams(never.mornings())).containsExactly(0.0, 300.0, 300.0);
  }

  @Test
  void less_per_day_than_there_is_leaves_some() {
    Course course = Course.of(grams(900).mass(), supply(byDay(), byDay(), grams(200)), 3);

    assertThat(inGrams(course.evenings())).containsExactly(700.0, 500.0, 300.0);
    assertThat(course.lack()).isNull();
  }

  /** Something added or used, and when. */
  private record Event(int day, boolean used, long grams) {}

  /** By a second method: of every morning and evening, the sum over all events before it. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void days_are_the_sum_over_the_events_before_them(long seed) {
    Random random = new Random(seed);
    int days = 1 + random.nextInt(40);
    List<Event> events = new ArrayList<>();
    SortedMap<Integer, Amount> taken = new TreeMap<>();
    SortedMap<Integer, Amount> used = new TreeMap<>();
    long there = 0;
    for (int day = 1; day <= days; day++) {
      if (day == 1 || random.nextInt(4) == 0) {
        long lot = random.nextInt(3000);
        events.add(new Event(day, false, lot));
        taken.put(day, grams(lot));
        there += lot;
      }
      long use = there == 0 ? 0 : random.nextLong(there + 1);
      if (use > 0 && random.nextBoolean()) {
        events.add(new Event(day, true, use));
        used.put(day, grams(use));
        there -= use;
      }
    }
    if (used.isEmpty()) {
      return; // then it is spread evenly, which is another test
    }

    Course course =
        Course.of(taken.getOrDefault(1, grams(0)).mass(), supply(taken, used, null), days);

    for (int day = 1; day <= days; day++) {
      int now = day;
      long morning =
          events.stream()
              .filter(event -> event.day() < now || event.day() == now && !event.used())
              .mapToLong(event -> event.used() ? -event.grams() : event.grams())
              .sum();
      long evening =
          events.stream()
              .filter(event -> event.day() <= now)
              .mapToLong(event -> event.used() ? -event.grams() : event.grams())
              .sum();
      assertThat(course.mornings().get(day - 1))
          .as("morning %d", day)
          .isEqualTo(grams(morning).mass());
      assertThat(course.evenings().get(day - 1))
          .as("evening %d", day)
          .isEqualTo(grams(evening).mass());
    }
    assertThat(course.lack()).isNull();
  }
}
