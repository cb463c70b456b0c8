package org.tareline.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.DoubleSupplier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Piece;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import org.tareline.trip.Amount;
import org.tareline.trip.Carry;
import org.tareline.trip.Days;
import org.tareline.trip.Packing;
import org.tareline.trip.Supply;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;
import org.tareline.trip.Weights;
import org.tareline.units.Mass;

/**
 * What it costs to weigh a trip of 1 000 lines and 60 days: in the core, beside plain loops over
 * arrays that yield the same totals, mornings, evenings and uncertainties, by a sum over single
 * events; and from the database with all that stands before the core and the look for what is
 * amiss. Times are of the thread alone, for machines are shared; they are one machine's.
 */
@Tag("benchmark")
@FeatureTest
class TripBenchmark {

  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();
  private static final int LINES = 1_000;
  private static final int DAYS = 60;
  private static final int PARTS = 40;
  private static final int SCALES = 3;
  private static final long GRAM = 1_000_000_000L;

  /** Base, worn, and consumables that are used up evenly, at so much a day, or day by day. */
  private enum Way {
    BASE,
    WORN,
    EVENLY,
    PER_DAY,
    BY_DAY
  }

  private final Way[] ways = new Way[LINES];
  private final long[] grams = new long[LINES];
  private final long[][] taken = new long[LINES][DAYS];
  private final long[][] used = new long[LINES][DAYS];

  TripBenchmark() {
    Random random = new Random(20270411);
    for (int line = 0; line < LINES; line++) {
      ways[line] = Way.values()[random.nextInt(Way.values().length)];
      // Whole grams each day.
      grams[line] = DAYS * (1L + random.nextInt(40));
      taken[line][0] = grams[line];
      for (int day = 0; day < DAYS; day++) {
        switch (ways[line]) {
          case EVENLY -> used[line][day] = grams[line] / DAYS;
          // Some run out before the end.
          case PER_DAY -> used[line][day] = grams[line] / DAYS + line % 3;
          case BY_DAY -> {
            taken[line][day] = day % 20 == 0 ? grams[line] / 3 : 0;
            used[line][day] = day % 2 == 0 ? grams[line] / DAYS : 0;
          }
          default -> used[line][day] = 0;
        }
      }
    }
  }

  @Test
  void weighingALongTrip(TestLedger ledger, TestServer server) {
    Packing packing = packing();
    double[] ours = figures(Weights.of(packing));
    double[] theirs = plain();
    assertThat(ours).hasSameSizeAs(theirs);
    for (int i = 0; i < ours.length; i++) {
      assertThat(ours[i]).as("figure %d", i).isCloseTo(theirs[i], within(1e-9 * theirs[i]));
    }
    double plain = median(() -> sum(plain()), 51);
    double core = median(() -> sum(figures(Weights.of(packing))), 51);
    System.out.printf(
        Locale.ROOT,
        "1 000 lines, 60 days: plain loops %.2f ms; core %.2f ms, ratio %.1f%n",
        plain,
        core,
        core / plain);

    Trips trips = server.bean(Trips.class);
    Trip trip = kept(ledger, trips);
    double database = median(() -> weighed(trips, ledger, trip), 15);
    System.out.printf(
        Locale.ROOT,
        "the same from the database, with nights and warnings %.1f ms, ratio to the core %.1f%n",
        database,
        database / core);
  }

  private static double weighed(Trips trips, TestLedger ledger, Trip trip) {
    Trip again = trips.get(ledger.member(), trip.code());
    Trips.Weighed weighed = trips.weighed(ledger.member(), again);
    assertThat(weighed.weights().all().days().days()).hasSize(DAYS);
    return weighed.weights().skinOut().estimate().value().inGrams();
  }

  private Packing packing() {
    Source[] spans = new Source[SCALES];
    for (int i = 0; i < SCALES; i++) {
      spans[i] = Source.of("scale:" + i, "span of scale " + i);
    }
    List<Packing.Line> lines = new ArrayList<>();
    Map<String, Packing.Kind> kinds = new HashMap<>();
    for (int line = 0; line < LINES; line++) {
      boolean consumable = ways[line].ordinal() > Way.WORN.ordinal();
      Estimate all = estimate(line, total(line), spans);
      Estimate start = ways[line] == Way.BY_DAY ? estimate(line, taken[line][0], spans) : all;
      Piece piece =
          new Piece(
              "p" + line, "P" + line, "P", start, consumable ? Basis.ESTIMATED : Basis.WEIGHED);
      kinds.put(piece.id(), kind(line));
      lines.add(
          new Packing.Line(
              "l" + line,
              piece,
              1,
              consumable ? Carry.CONSUMABLE : ways[line] == Way.WORN ? Carry.WORN : Carry.BASE,
              null,
              null,
              null,
              supply(line),
              ways[line] == Way.BY_DAY ? all : null,
              List.of()));
    }
    return new Packing(
        "t",
        "T",
        "T",
        DAYS,
        List.of(),
        lines,
        List.of(),
        piece -> kinds.getOrDefault(piece.id(), kind(0)));
  }

  private static Packing.Kind kind(int line) {
    return new Packing.Kind(
        GearSystem.values()[line % GearSystem.values().length], null, 0, false, null, null);
  }

  private long total(int line) {
    return Arrays.stream(taken[line]).sum();
  }

  /** What is weighed shares the span of its scale; what is a guess is sure to a tenth. */
  private Estimate estimate(int line, long mass, Source[] spans) {
    return ways[line].ordinal() > Way.WORN.ordinal()
        ? Estimate.of(new Mass(mass * GRAM), Map.of(Source.of("stated:" + line, "P"), 0.1 * mass))
        : Estimate.of(
            new Mass(mass * GRAM),
            Map.of(spans[line % SCALES], 0.001 * mass, Source.of("d:" + line, "P"), 0.03));
  }

  private Supply supply(int line) {
    return switch (ways[line]) {
      case PER_DAY -> new Supply(new TreeMap<>(), new TreeMap<>(), amount(used[line][0]), null);
      case BY_DAY -> new Supply(byDay(taken[line]), byDay(used[line]), null, null);
      default -> Supply.EVEN;
    };
  }

  private static Amount amount(long grams) {
    return new Amount(new Mass(grams * GRAM), grams + " g");
  }

  private static SortedMap<Integer, Amount> byDay(long[] grams) {
    SortedMap<Integer, Amount> byDay = new TreeMap<>();
    for (int day = 0; day < DAYS; day++) {
      if (grams[day] > 0) {
        byDay.put(day + 1, amount(grams[day]));
      }
    }
    return byDay;
  }

  /** Value and standard uncertainty of each total, and of each day's four figures. */
  private static double[] figures(Weights weights) {
    List<Estimate> all = new ArrayList<>();
    all.add(weights.base().estimate());
    all.add(weights.worn().estimate());
    all.add(weights.consumables().estimate());
    all.add(weights.totalPack().estimate());
    all.add(weights.skinOut().estimate());
    for (Days.Day day : weights.all().days().days()) {
      all.add(day.start());
      all.add(day.end());
      all.add(day.mean());
      all.add(day.startSkinOut());
    }
    double[] figures = new double[2 * all.size()];
    for (int i = 0; i < all.size(); i++) {
      figures[2 * i] = all.get(i).value().inGrams();
      figures[2 * i + 1] = all.get(i).standardUncertaintyInGrams();
    }
    return figures;
  }

  private double[] plain() {
    double[] figures = new double[10 + 8 * DAYS];
    double base = 0;
    double worn = 0;
    double[] baseSpan = new double[SCALES];
    double[] wornSpan = new double[SCALES];
    double baseOwn = 0;
    double wornOwn = 0;
    double start = 0;
    double startOwn = 0;
    double[] morning = new double[DAYS];
    double[] evening = new double[DAYS];
    double[] morningOwn = new double[DAYS];
    double[] eveningOwn = new double[DAYS];
    double[] meanOwn = new double[DAYS];
    for (int line = 0; line < LINES; line++) {
      double mass = grams[line];
      if (ways[line] == Way.BASE) {
        base += mass;
        baseSpan[line % SCALES] += 0.001 * mass;
        baseOwn += 0.03 * 0.03;
      } else if (ways[line] == Way.WORN) {
        worn += mass;
        wornSpan[line % SCALES] += 0.001 * mass;
        wornOwn += 0.03 * 0.03;
      } else {
        start += taken[line][0];
        startOwn += 0.01 * taken[line][0] * taken[line][0];
        long there = 0;
        for (int day = 0; day < DAYS; day++) {
          there += taken[line][day];
          double before = there;
          morning[day] += before;
          morningOwn[day] += 0.01 * before * before;
          there = Math.max(0, there - used[line][day]);
          evening[day] += there;
          eveningOwn[day] += 0.01 * there * (double) there;
          meanOwn[day] += 0.0025 * (before + there) * (before + there);
        }
      }
    }
    double baseSpans = 0;
    double wornSpans = 0;
    double bothSpans = 0;
    for (int i = 0; i < SCALES; i++) {
      baseSpans += baseSpan[i] * baseSpan[i];
      wornSpans += wornSpan[i] * wornSpan[i];
      bothSpans += (baseSpan[i] + wornSpan[i]) * (baseSpan[i] + wornSpan[i]);
    }
    int at = put(figures, 0, base, baseOwn + baseSpans);
    at = put(figures, at, worn, wornOwn + wornSpans);
    at = put(figures, at, start, startOwn);
    at = put(figures, at, base + start, baseOwn + baseSpans + startOwn);
    at = put(figures, at, base + worn + start, baseOwn + wornOwn + bothSpans + startOwn);
    for (int day = 0; day < DAYS; day++) {
      at = put(figures, at, base + morning[day], baseOwn + baseSpans + morningOwn[day]);
      at = put(figures, at, base + evening[day], baseOwn + baseSpans + eveningOwn[day]);
      at =
          put(
              figures,
              at,
              base + (morning[day] + evening[day]) / 2,
              baseOwn + baseSpans + meanOwn[day]);
      at =
          put(
              figures,
              at,
              base + worn + morning[day],
              baseOwn + wornOwn + bothSpans + morningOwn[day]);
    }
    return figures;
  }

  private static int put(double[] figures, int at, double value, double variance) {
    figures[at] = value;
    figures[at + 1] = Math.sqrt(variance);
    return at + 2;
  }

  /** The same as parts and free items of a ledger. */
  private Trip kept(TestLedger ledger, Trips trips) {
    List<Map<String, Object>> lines = new ArrayList<>();
    for (int part = 0; part < PARTS; part++) {
      ledger
          .api()
          .post(
              "/parts",
              Map.of("code", "P" + part, "name", "P", "stated", Map.of("mass", grams[part] + " g")))
          .expect(201);
    }
    for (int line = 0; line < LINES; line++) {
      Map<String, Object> sent = new HashMap<>();
      if (ways[line] == Way.BASE || ways[line] == Way.WORN) {
        sent.put("part", "P" + line % PARTS);
        sent.put("carry", ways[line] == Way.BASE ? "base" : "worn");
      } else {
        Map<String, Object> item = new HashMap<>(Map.of("name", "I" + line, "system", "food"));
        if (ways[line] == Way.BY_DAY) {
          sent.put("taken", typed(taken[line]));
          sent.put("used", typed(used[line]));
        } else {
          item.put("mass", grams[line] + " g");
          if (ways[line] == Way.PER_DAY) {
            sent.put("perDay", used[line][0] + " g");
          }
        }
        sent.put("item", item);
        sent.put("carry", "consumable");
      }
      lines.add(sent);
    }
    ledger
        .api()
        .post("/trips", Map.of("code", "LONG", "name", "Long", "days", DAYS, "lines", lines))
        .expect(201);
    return trips.get(ledger.member(), "LONG");
  }

  private static Map<String, String> typed(long[] grams) {
    Map<String, String> typed = new HashMap<>();
    for (int day = 0; day < DAYS; day++) {
      if (grams[day] > 0) {
        typed.put(String.valueOf(day + 1), grams[day] + " g");
      }
    }
    return typed;
  }

  private static double sum(double[] figures) {
    return Arrays.stream(figures).sum();
  }

  private static double median(DoubleSupplier work, int times) {
    double[] millis = new double[times];
    double sink = 0;
    for (int i = 0; i < times; i++) {
      long start = CLOCK.getCurrentThreadCpuTime();
      sink += work.getAsDouble();
      millis[i] = (CLOCK.getCurrentThreadCpuTime() - start) / 1e6;
    }
    assertThat(sink).isPositive();
    Arrays.sort(millis);
    return millis[times / 2];
  }
}
