package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.SizedPiece.Side;
import org.tareline.units.Length;
import org.tareline.units.Mass;

class SizedPieceTest {

  private static final Source SPAN = Source.of("scale/span", "span");

  private static Side side(String name, String metres, String halfWidth) {
    return new Side(name, Length.ofMetres(metres), Length.ofMetres(halfWidth));
  }

  private static Estimate weighed(String grams, double u) {
    return Estimate.of(Mass.parse(grams), Map.of(Source.of("w/load", "load"), u));
  }

  /** M = m/(L W), ISO 3801:1977 method 5: 0.48 g of 100 cm² is 48 g/m². */
  @Test
  void a_piece_of_100_square_centimetres_at_a_hundredth_of_a_gram_decides_two_digits() {
    double resolution = 0.01 / Math.sqrt(12);

    Estimate units =
        new SizedPiece(
                "s",
                weighed("0.48 g", resolution),
                List.of(side("length", "0.1", "0"), side("width", "0.1", "0")))
            .units();

    assertThat(units.value()).isEqualTo(Mass.parse("48 kg"));
    // d/√12 over 0.01 m² is 0.288675 g/m², by hand; to all digits printed
    assertThat(units.standardUncertaintyInGrams() / 1000).isCloseTo(0.288675, within(5e-7));
  }

  /** (u_c/y)² = Σ (p u/x)² with exponents 1, −1 and −1 (JCGM 100:2008, 5.1.6 eq. 12). */
  @Test
  void relative_uncertainties_of_mass_and_sides_add_in_squares() {
    Estimate units =
        new SizedPiece(
                "s",
                weighed("12 g", 0.06),
                List.of(side("length", "0.5", "0.001"), side("width", "0.4", "0.002")))
            .units();

    double relative =
        Math.sqrt(
            Math.pow(0.06 / 12, 2)
                + Math.pow(0.001 / Math.sqrt(3) / 0.5, 2)
                + Math.pow(0.002 / Math.sqrt(3) / 0.4, 2));
    assertThat(units.value()).isEqualTo(Mass.parse("60 kg"));
    assertThat(units.standardUncertaintyInGrams() / 60_000).isCloseTo(relative, within(1e-12));
  }

  @Test
  void a_hank_goes_by_its_length_and_a_buckle_by_itself() {
    SizedPiece hank =
        new SizedPiece("h", weighed("42 g", 0.03), List.of(side("length", "30", "0.001")));
    SizedPiece buckle = new SizedPiece("b", weighed("4.2 g", 0.03), List.of());

    assertThat(hank.units().value()).isEqualTo(Mass.parse("1400 g"));
    assertThat(buckle.units().value()).isEqualTo(Mass.parse("4200 g"));
    assertThat(buckle.units().standardUncertaintyInGrams()).isCloseTo(30, within(1e-9));
  }

  @Test
  void a_source_that_the_weighing_shares_stays_the_same_source() {
    Estimate mass = Estimate.of(Mass.parse("12 g"), Map.of(SPAN, 0.01));

    Estimate units = new SizedPiece("s", mass, List.of(side("length", "2", "0"))).units();

    assertThat(units.coefficients()).isEqualTo(Map.of(SPAN, 5.0));
  }

  @Test
  void a_side_that_may_be_nothing_is_refused() {
    assertThatThrownBy(() -> side("length", "0.001", "0.001"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("length");
  }
}
