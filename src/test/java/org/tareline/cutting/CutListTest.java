package org.tareline.cutting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tareline.cutting.Cut.Each;
import org.tareline.cutting.Cut.Fill;
import org.tareline.cutting.Cut.Panel;
import org.tareline.cutting.Cut.Run;
import org.tareline.cutting.Cut.Seam;
import org.tareline.cutting.Shape.ParabolicSegment;
import org.tareline.cutting.Shape.Rectangle;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Estimate;

class CutListTest {

  private static final Stock CLOTH = exact("CLOTH", Per.SQUARE_METRE, 40);
  private static final Stock CORD = exact("CORD", Per.METRE, 1.4);
  private static final Stock RING = exact("RING", Per.PIECE, 3.2);

  @Test
  void a_panel_with_hems_weighs_what_the_worked_example_says() {
    // REFERENCES E, worked: cut 3.030 × 1.440 m at 40 g/m².
    assertThat(grams(new Panel(CLOTH, new Rectangle(3.030, 1.440), 1, false)))
        .isCloseTo(174.528, within(1e-9));
  }

  @Test
  void what_a_curved_edge_takes_away_is_not_there() {
    // REFERENCES E, worked: chord 3.0 m, depth 0.15 m: 12.000 g at 40 g/m².
    Cut edge = new Panel(CLOTH, new ParabolicSegment(3.0, 0.15), 1, true);

    assertThat(edge.grams()).isCloseTo(-12, within(1e-9));
    assertThat(grams(new Panel(CLOTH, new Rectangle(3, 1.5), 1, false), edge, edge))
        .isCloseTo(180 - 24, within(1e-9));
  }

  @Test
  void cloth_by_the_ounce_and_yard_is_the_same_cloth() {
    // REFERENCES E, worked: 2.5 m of 1.5 m wide cloth at 1.1 oz/yd²: 139.861208 g.
    Stock ounces = exact("C", Per.SQUARE_METRE, 1.1 * 28.349523125 / (0.9144 * 0.9144));
    assertThat(grams(new Panel(ounces, new Rectangle(2.5, 1.5), 1, false)))
        .isCloseTo(139.861208, within(5e-7));
  }

  @Test
  void thread_is_by_ratio_or_by_the_geometry_of_the_stitch() {
    Stock thread = exact("T60", Per.METRE, 0.060); // 60 tex
    // REFERENCES E, worked: T = 0.3 mm, 4 stitches/cm, 12 m: C = 2.24, 1.6128 g; by 2.5: 1.8 g.
    double ratio = Seam.lockstitch(0.0003, 400);
    assertThat(ratio).isCloseTo(2.24, within(1e-12));
    assertThat(new Seam(thread, 12, ratio, 1).grams()).isCloseTo(1.6128, within(1e-12));
    assertThat(new Seam(thread, 12, Seam.PLANNING_RATIO, 1).grams()).isCloseTo(1.8, within(1e-12));
    // Printed example for stitch type 301 there: T = 0.01 in, 10 stitches to the inch: 2.2 in/in.
    assertThat(Seam.lockstitch(0.01 * 0.0254, 10 / 0.0254)).isCloseTo(2.2, within(1e-12));
  }

  @Test
  void cord_and_hardware_are_counted() {
    // REFERENCES E, worked: 2.2 m at 1.4 g/m: 3.08 g.
    assertThat(new Run(CORD, 2.2, 1).grams()).isCloseTo(3.08, within(1e-12));
    assertThat(grams(new Run(CORD, 2.2, 2), new Each(RING, 3))).isCloseTo(6.16 + 9.6, within(1e-9));
  }

  @Test
  void down_fills_its_volume_by_its_fill_power() {
    // REFERENCES H, worked: 2.00 m² × 50 mm at 800 in³/oz: 216.249256 g; at 650: 266.152930 g.
    assertThat(Fill.gramsFor(2.00 * 0.050, 800)).isCloseTo(216.249256, within(5e-7));
    assertThat(Fill.gramsFor(2.00 * 0.050, 650)).isCloseTo(266.152930, within(5e-7));
    assertThat(12 * Fill.gramsFor(0.14 * 1.30 * 0.045, 850)).isCloseTo(200.028017, within(5e-6));
  }

  @Test
  void all_that_is_cut_from_one_material_is_off_together() {
    Stock cloth = new Stock("c", "CLOTH", Per.SQUARE_METRE, 40, 1, 7);
    CutList list =
        new CutList(
            "p",
            List.of(
                new Panel(cloth, new Rectangle(2, 1), 1, false),
                new Panel(cloth, new Rectangle(1, 1), 1, false)),
            0);

    Estimate estimate = list.estimate();

    // 3 m² and 1 g/m²: straight, not in quadrature (JCGM 100:2008, 5.2.2 note 1).
    assertThat(estimate.standardUncertaintyInGrams()).isCloseTo(3, within(1e-12));
    assertThat(estimate.effectiveDegreesOfFreedom()).isCloseTo(7, within(1e-9));
    Estimate other =
        new CutList("q", List.of(new Panel(cloth, new Rectangle(3, 1), 1, false)), 0).estimate();
    assertThat(other.minus(estimate).variance()).isCloseTo(0, within(1e-20));
  }

  @Test
  void every_edge_is_off_together_by_the_cutting_tolerance() {
    CutList list =
        new CutList(
            "p",
            List.of(
                new Panel(CLOTH, new Rectangle(2, 1), 1, false),
                new Panel(CLOTH, new Rectangle(0.5, 0.5), 2, true)),
            0.003);

    // 40 g/m² × (6 m − 2 × 2 m) × 3 mm/√3.
    assertThat(list.estimate().standardUncertaintyInGrams())
        .isCloseTo(40 * 2 * 0.003 / Math.sqrt(3), within(1e-12));
  }

  @Test
  void lines_add_up_to_the_whole() {
    Stock cloth = new Stock("c", "CLOTH", Per.SQUARE_METRE, 40, 1, 7);
    Cut panel = new Panel(cloth, new Rectangle(2, 1), 3, false);
    Cut run = new Run(CORD, 1.1, 4);
    CutList list = new CutList("p", List.of(panel, run), CutList.COMMON_TOLERANCE);

    Estimate sum = list.estimate(List.of(panel)).plus(list.estimate(List.of(run)));

    assertThat(sum.value()).isEqualTo(list.estimate().value());
    assertThat(sum.variance()).isCloseTo(list.estimate().variance(), within(1e-12));
  }

  @Test
  void the_wrong_kind_of_material_and_more_cut_away_than_there_is_are_refused() {
    assertThatThrownBy(() -> new Run(CLOTH, 1, 1))
        .hasMessage("CLOTH is known by the square metre, and is wanted by the metre here.");
    assertThatThrownBy(() -> new Panel(CORD, new Rectangle(1, 1), 1, false))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Each(RING, 0)).hasMessageContaining("quantity");
    assertThatThrownBy(
            () -> new CutList("p", List.of(new Panel(CLOTH, new Rectangle(1, 1), 1, true)), 0.003))
        .hasMessageContaining("cut away");
    assertThatThrownBy(() -> new CutList("p", List.of(), Double.NaN))
        .hasMessageContaining("tolerance");
  }

  private static double grams(Cut... cuts) {
    return new CutList("p", List.of(cuts), 0).estimate().value().inGrams();
  }

  private static Stock exact(String code, Per per, double grams) {
    return new Stock(code, code, per, grams, 0, Double.POSITIVE_INFINITY);
  }
}
