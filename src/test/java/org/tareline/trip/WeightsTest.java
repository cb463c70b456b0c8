package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Line;
import org.tareline.rollup.Piece;
import org.tareline.units.Mass;

/** Weights of trips against a second method: unfold everything by hand and add source by source. */
class WeightsTest {

  private static final Source SPAN = Source.of("scale:bench:span", "span of the bench scale");

  private final Map<String, Packing.Kind> kinds = new HashMap<>();
  private final List<Packing.Line> lines = new ArrayList<>();

  /** A thing weighed on the one bench scale, whose span error of 1 % it shares with all others. */
  private Piece weighed(String code, GearSystem system, int owned, long grams) {
    kinds.put(code, new Packing.Kind(system, owned));
    Mass mass = new Mass(grams * 1_000_000_000L);
    return new Piece(
        code,
        code,
        "the " + code,
        Estimate.of(
            mass, Map.of(SPAN, mass.inGrams() * 0.01, Source.of(code + ":resolution", code), 0.03)),
        Basis.WEIGHED);
  }

  private Piece stated(String code, GearSystem system, long grams) {
    kinds.put(code, new Packing.Kind(system, null));
    return new Piece(
        code,
        code,
        "the " + code,
        Estimate.of(
            new Mass(grams * 1_000_000_000L), Map.of(Source.of(code + ":stated", code), 5.0)),
        Basis.ESTIMATED);
  }

  private Piece unknown(String code, GearSystem system) {
    kinds.put(code, new Packing.Kind(system, 1));
    return new Piece(code, code, "the " + code, null, null);
  }

  private static Assembly rig(String code, Line... held) {
    return new Assembly(code, code, "the " + code, List.of(held));
  }

  private static Line held(String id, int quantity, Content content) {
    return new Line(id, "other", quantity, content);
  }

  private void pack(Content content, int quantity, Carry carry) {
    lines.add(new Packing.Line("line-" + lines.size(), content, quantity, carry, null));
  }

  private Packing packing() {
    return new Packing(
        "trip",
        "TRIP",
        "a trip",
        0,
        List.of(),
        lines,
        List.of(),
        piece -> kinds.getOrDefault(piece.id(), NOTHING));
  }

  private static final Packing.Kind NOTHING = new Packing.Kind(GearSystem.OTHER, null);

  private Weights weights() {
    return Weights.of(packing());
  }

  @Test
  void total_pack_is_base_and_consumables_and_skin_out_is_everything() {
    pack(weighed("TARP", GearSystem.RAIN, 1, 400), 1, Carry.BASE);
    pack(weighed("BOOTS", GearSystem.CLOTHING, 1, 900), 1, Carry.WORN);
    pack(stated("oats", GearSystem.FOOD, 300), 2, Carry.CONSUMABLE);

    Weights weights = weights();

    assertThat(weights.base().estimate().value()).isEqualTo(Mass.ofGrams("400"));
    assertThat(weights.worn().estimate().value()).isEqualTo(Mass.ofGrams("900"));
    assertThat(weights.consumables().estimate().value()).isEqualTo(Mass.ofGrams("600"));
    assertThat(weights.totalPack().estimate().value()).isEqualTo(Mass.ofGrams("1000"));
    assertThat(weights.skinOut().estimate().value()).isEqualTo(Mass.ofGrams("1900"));
    assertThat(weights.base().basis()).isEqualTo(Basis.WEIGHED);
    assertThat(weights.totalPack().basis()).isEqualTo(Basis.MIXED);
    assertThat(weights.totalPack().unweighedLines()).isEqualTo(1);
  }

  @Test
  void the_span_of_one_scale_adds_up_straight_between_what_is_packed_and_what_is_worn() {
    pack(weighed("TARP", GearSystem.RAIN, 1, 1000), 1, Carry.BASE);
    pack(weighed("BOOTS", GearSystem.CLOTHING, 1, 1000), 1, Carry.WORN);

    Weights weights = weights();

    // 1 % of 2000 g, and twice 0.03 g of resolution that is nobody else's; in quadrature the span
    // alone would come to 14.1 g.
    assertThat(weights.skinOut().estimate().standardUncertaintyInGrams())
        .isCloseTo(Math.sqrt(20.0 * 20.0 + 2 * 0.03 * 0.03), within(1e-9));
  }

  @Test
  void the_same_part_in_the_pack_and_on_the_body_has_twice_its_error() {
    Piece sock = stated("SOCK", GearSystem.CLOTHING, 40);
    pack(sock, 1, Carry.BASE);
    pack(sock, 1, Carry.WORN);

    assertThat(weights().skinOut().estimate().standardUncertaintyInGrams())
        .isCloseTo(10.0, within(1e-9));
  }

  @Test
  void a_rig_unfolds_into_the_systems_of_its_parts() {
    Assembly hang =
        rig(
            "HANG",
            held("a", 1, weighed("BODY", GearSystem.HANG, 1, 300)),
            held("b", 2, weighed("QUILT", GearSystem.SLEEP, 2, 500)));
    pack(hang, 1, Carry.BASE);
    pack(stated("bread", GearSystem.FOOD, 250), 1, Carry.CONSUMABLE);

    List<Weights.OfSystem> systems = weights().bySystem();

    assertThat(systems)
        .extracting(Weights.OfSystem::system)
        .containsExactly(GearSystem.HANG, GearSystem.SLEEP, GearSystem.FOOD);
    assertThat(systems.get(1).total().estimate().value()).isEqualTo(Mass.ofGrams("1000"));
    assertThat(systems.get(1).base().estimate()).isEqualTo(systems.get(1).total().estimate());
    assertThat(systems.get(1).worn().estimate()).isEqualTo(Estimate.exact(Mass.ZERO));
    assertThat(systems.get(2).consumables().estimate().value()).isEqualTo(Mass.ofGrams("250"));
  }

  @Test
  void what_has_no_mass_is_missing_and_not_nothing() {
    pack(unknown("POT", GearSystem.COOK), 2, Carry.BASE);
    pack(rig("HANG", held("a", 1, unknown("BODY", GearSystem.HANG))), 1, Carry.BASE);
    pack(weighed("BOOTS", GearSystem.CLOTHING, 1, 900), 1, Carry.WORN);

    Weights weights = weights();

    assertThat(weights.base().missing()).extracting(Piece::code).containsExactly("POT", "BODY");
    assertThat(weights.base().basis()).isNull();
    assertThat(weights.base().unweighedLines()).isEqualTo(2);
    assertThat(weights.skinOut().atLeast()).isTrue();
    assertThat(weights.worn().atLeast()).isFalse();
    assertThat(weights.lines().get(0).estimate()).isNull();
    assertThat(weights.lines().get(1).atLeast()).isTrue();
    assertThat(weights.heaviest(10))
        .extracting(line -> line.line().content().code())
        .containsExactly("BOOTS");
  }

  @Test
  void a_trip_with_nothing_on_it_weighs_nothing() {
    Weights weights = weights();

    assertThat(weights.skinOut().estimate()).isEqualTo(Estimate.exact(Mass.ZERO));
    assertThat(weights.bySystem()).isEmpty();
    assertThat(weights.heaviest(10)).isEmpty();
  }

  @Test
  void the_heaviest_lines_come_first_and_no_more_than_asked_for() {
    pack(weighed("POT", GearSystem.COOK, 1, 90), 1, Carry.BASE);
    pack(weighed("STAKE", GearSystem.RAIN, 9, 20), 6, Carry.BASE);
    pack(weighed("BOOTS", GearSystem.CLOTHING, 1, 900), 1, Carry.WORN);

    List<Weights.OfLine> heaviest = weights().heaviest(2);

    assertThat(heaviest)
        .extracting(line -> line.line().content().code())
        .containsExactly("BOOTS", "STAKE");
    assertThat(heaviest.get(1).shareOfMass()).isCloseTo(120.0 / 1110.0, within(1e-12));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void every_figure_is_what_unfolding_by_hand_and_adding_source_by_source_gives(long seed) {
    packAtRandom(new Random(seed));

    Weights weights = weights();

    assertSame(weights.base(), byHand(line -> line.carry() == Carry.BASE, piece -> true));
    assertSame(weights.worn(), byHand(line -> line.carry() == Carry.WORN, piece -> true));
    assertSame(
        weights.consumables(), byHand(line -> line.carry() == Carry.CONSUMABLE, piece -> true));
    assertSame(weights.totalPack(), byHand(line -> line.carry() != Carry.WORN, piece -> true));
    assertSame(weights.skinOut(), byHand(line -> true, piece -> true));
    for (Weights.OfSystem system : weights.bySystem()) {
      Predicate<Piece> belongs =
          piece -> kinds.getOrDefault(piece.id(), NOTHING).system() == system.system();
      assertSame(system.base(), byHand(line -> line.carry() == Carry.BASE, belongs));
      assertSame(system.worn(), byHand(line -> line.carry() == Carry.WORN, belongs));
      assertSame(system.consumables(), byHand(line -> line.carry() == Carry.CONSUMABLE, belongs));
      assertSame(system.total(), byHand(line -> true, belongs));
    }
    for (Weights.OfLine line : weights.lines()) {
      ByHand sum = byHand(one -> one.id().equals(line.line().id()), piece -> true);
      assertThat(line.estimate() == null ? 0 : line.estimate().value().nanograms())
          .isEqualTo(sum.nanograms);
      assertThat(line.unweighedLines()).isEqualTo(sum.unweighed.size());
    }
  }

  private void packAtRandom(Random random) {
    List<Content> things = new ArrayList<>();
    GearSystem[] systems = GearSystem.values();
    for (int i = 0; i < 12; i++) {
      GearSystem system = systems[random.nextInt(systems.length)];
      things.add(
          switch (random.nextInt(5)) {
            case 0 -> unknown("U" + i, system);
            case 1 -> stated("S" + i, system, 1 + random.nextInt(900));
            default -> weighed("W" + i, system, random.nextInt(9), 1 + random.nextInt(900));
          });
    }
    for (int i = 0; i < 5; i++) { // each may hold those before it
      List<Line> held = new ArrayList<>();
      for (int j = random.nextInt(6); j >= 0; j--) {
        held.add(
            new Line(
                "R" + i + "-" + j,
                "other",
                1 + random.nextInt(4),
                things.get(random.nextInt(things.size()))));
      }
      things.add(new Assembly("R" + i, "R" + i, "the R" + i, held));
    }
    for (int i = 0; i < 15; i++) {
      pack(
          things.get(random.nextInt(things.size())),
          1 + random.nextInt(3),
          Carry.values()[random.nextInt(3)]);
    }
  }

  private static void assertSame(Total total, ByHand byHand) {
    assertThat(total.estimate().value().nanograms()).isEqualTo(byHand.nanograms);
    double variance = byHand.coefficients.values().stream().mapToDouble(c -> c * c).sum();
    assertThat(total.estimate().standardUncertaintyInGrams())
        .isCloseTo(Math.sqrt(variance), within(1e-9));
    assertThat(total.unweighedLines()).isEqualTo(byHand.unweighed.size());
    assertThat(total.missing())
        .extracting(Piece::id)
        .containsExactlyInAnyOrderElementsOf(byHand.missing);
  }

  private ByHand byHand(Predicate<Packing.Line> counted, Predicate<Piece> belongs) {
    ByHand sum = new ByHand(belongs);
    for (Packing.Line line : lines) {
      if (counted.test(line)) {
        for (int i = 0; i < line.quantity(); i++) {
          sum.add(line.id(), line.content());
        }
      }
    }
    return sum;
  }

  /** One piece after the other, each source on its own. */
  private static final class ByHand {
    private final Predicate<Piece> belongs;
    private final Map<String, Double> coefficients = new HashMap<>();
    private final Set<String> missing = new HashSet<>();
    private final Set<String> unweighed = new HashSet<>();
    private long nanograms;

    private ByHand(Predicate<Piece> belongs) {
      this.belongs = belongs;
    }

    private void add(String lineId, Content content) {
      if (content instanceof Assembly rig) {
        for (Line line : rig.lines()) {
          for (int i = 0; i < line.quantity(); i++) {
            add(line.id(), line.content());
          }
        }
      } else if (content instanceof Piece piece && belongs.test(piece)) {
        addPiece(lineId, piece, piece.each());
      }
    }

    private void addPiece(String lineId, Piece piece, @Nullable Estimate each) {
      if (piece.basis() != Basis.WEIGHED) {
        unweighed.add(lineId);
      }
      if (each == null) {
        missing.add(piece.id());
      } else {
        nanograms += each.value().nanograms();
        each.coefficients()
            .forEach((source, grams) -> coefficients.merge(source.id(), grams, Double::sum));
      }
    }
  }
}
