package org.tareline.trip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Numbering;
import org.tareline.evidence.Tally;
import org.tareline.units.Mass;

/**
 * A pack from day to day. Consumables grow less within a day in a straight line, so its mean is
 * halfway between morning and evening. What is left of a consumable is as unsure, in proportion, as
 * all of it.
 *
 * @param days in their order; none where nobody has said how many there are
 */
public record Days(List<Day> days) {

  /**
   * One day.
   *
   * @param start the pack in the morning, after what was taken before leaving
   * @param end the pack in the evening
   * @param startSkinOut everything in the morning
   */
  public record Day(int day, Estimate start, Estimate end, Estimate mean, Estimate startSkinOut) {}

  /** What a pack weighs on a day. */
  public record OnDay(int day, Estimate mass) {}

  /**
   * A consumable on its way.
   *
   * @param all a mass of it with its error, of whatever size above nothing
   */
  record Flow(Course course, Estimate all) {}

  public Days {
    days = List.copyOf(days);
  }

  /** Adds up, day by day, what stays and what of each consumable is there. */
  static Days of(Estimate base, Estimate worn, List<Flow> flows, int count) {
    List<Estimate> all = new ArrayList<>();
    all.add(base);
    all.add(worn);
    flows.forEach(flow -> all.add(flow.all()));
    Numbering numbering = Numbering.of(all);
    List<Estimate> numbered = numbering.estimates();
    Tally tally = new Tally(numbering);
    List<Day> days = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      tally.add(numbered.get(0), 1);
      for (int j = 0; j < flows.size(); j++) {
        add(tally, numbered.get(j + 2), flows.get(j).course().mornings().get(i));
      }
      Estimate start = tally.take();
      tally.add(numbered.get(0), 1);
      for (int j = 0; j < flows.size(); j++) {
        add(tally, numbered.get(j + 2), flows.get(j).course().evenings().get(i));
      }
      Estimate end = tally.take();
      tally.add(start, 1);
      tally.add(end, 1);
      Estimate mean = tally.take().dividedBy(2);
      tally.add(start, 1);
      tally.add(numbered.get(1), 1);
      days.add(new Day(i + 1, start, end, mean, tally.take()));
    }
    return new Days(days);
  }

  private static void add(Tally tally, Estimate all, Mass there) {
    if (there.signum() > 0) {
      tally.add(all.inProportion(there), 1);
    }
  }

  /** The heaviest morning, the first of several alike. */
  public Optional<OnDay> heaviest() {
    return days.stream()
        .max(
            Comparator.comparing((Day day) -> day.start().value()).thenComparing(day -> -day.day()))
        .map(day -> new OnDay(day.day(), day.start()));
  }

  /** The lightest evening, the first of several alike. */
  public Optional<OnDay> lightest() {
    return days.stream()
        .min(Comparator.comparing((Day day) -> day.end().value()).thenComparing(Day::day))
        .map(day -> new OnDay(day.day(), day.end()));
  }

  /** The mean of the days' means. */
  public Optional<Estimate> mean() {
    return days.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Estimate.sum(days.stream().flatMap(day -> Stream.of(day.start(), day.end())).toList())
                .dividedBy(2L * days.size()));
  }
}
