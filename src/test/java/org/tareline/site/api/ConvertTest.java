package org.tareline.site.api;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class ConvertTest {

  /**
   * The ounce, the pound and the grain are 28.349 523 125 g, 453.592 37 g and 64.798 91 mg exactly
   * (NIST HB 44, App. C; NIST SP 811, App. B.8 prints them rounded), the inch is 25.4 mm and the
   * foot 0.3048 m (SP 811, B.8), the kilogram-force 9.806 65 N and the thermochemical calorie 4.184
   * J (SP 811, B.8). Each value follows by whole-number arithmetic and so is asserted to its last
   * digit.
   */
  @Test
  void a_conversion_is_exact_to_its_last_digit(TestLedger ledger) {
    converts(ledger, "13 1/4 oz", "g", "mass", "375.63118140625", "g");
    converts(ledger, "1 oz", "g", "mass", "28.349523125", "g");
    converts(ledger, "1 lb 1 oz", "g", "mass", "481.941893125", "g");
    converts(ledger, "2 lb 3.5 oz", "g", "mass", "1006.4080709375", "g");
    converts(ledger, "12½ oz", "g", "mass", "354.3690390625", "g");
    converts(ledger, "1 lb", "[oz_av]", "mass", "16", "[oz_av]");
    converts(ledger, "1 lb", "grain", "mass", "7000", "[gr]");
    converts(ledger, "0,5 kg", "g", "mass", "500", "g");
    converts(ledger, "4 ft 6 in", "m", "length", "1.3716", "m");
    converts(ledger, "5/32 in", "mm", "length", "3.96875", "mm");
    converts(ledger, "1 kgf", "N", "force", "9.80665", "N");
    converts(ledger, "1 kcal", "kJ", "energy", "4.184", "kJ");
    converts(ledger, "40 tex", "den", "mass per length", "360", "[den]");
    converts(ledger, "212 °F", "°C", "temperature", "100", "Cel");
  }

  private static void converts(
      TestLedger ledger, String quantity, String to, String kind, String value, String unit) {
    JsonNode converted =
        ledger.api().get("/convert?quantity={q}&to={u}", quantity, to).expect(200).json();

    assertThat(converted.path("kind").asString()).isEqualTo(kind);
    assertThat(converted.path("value").asString()).as(quantity).isEqualTo(value);
    assertThat(converted.path("unit").asString()).isEqualTo(unit);
    assertThat(converted.path("exact").asBoolean()).isTrue();
    assertThat(converted.has("notes")).isFalse();
  }

  @Test
  void a_value_whose_digits_never_end_says_that_it_is_not_exact(TestLedger ledger) {
    JsonNode converted =
        ledger.api().get("/convert?quantity={q}&to={u}", "1 g", "oz").expect(200).json();

    // 1 g = 0.035 273 961 9... oz (NIST HB 44, App. C prints 0.035 oz); 17 digits are given
    assertThat(converted.path("value").asString()).startsWith("0.0352739619");
    assertThat(converted.path("exact").asBoolean()).isFalse();
  }

  @Test
  void gr_is_read_as_the_grain_and_the_answer_says_so(TestLedger ledger) {
    JsonNode converted =
        ledger.api().get("/convert?quantity={q}&to={u}", "100 gr", "g").expect(200).json();

    // SP 811, B.8: one grain is 6.479 891 E-05 kg, exactly
    assertThat(converted.path("value").asString()).isEqualTo("6.479891");
    assertThat(converted.path("notes").path(0).asString()).contains("grain").contains("gram");
  }

  @Test
  void what_cannot_be_converted_is_refused_where_it_stands(TestLedger ledger) {
    refused(ledger, "12 parsecs", "g", "#/quantity", "parsecs");
    refused(ledger, "1,234 g", "g", "#/quantity", "write 1234");
    refused(ledger, "13", "g", "#/quantity", "unit");
    refused(ledger, "13 oz", "m", "#/to", "unit of length");
    refused(ledger, "13 oz", "blob", "#/to", "blob");
  }

  private static void refused(
      TestLedger ledger, String quantity, String to, String pointer, String said) {
    Answer refused = ledger.api().get("/convert?quantity={q}&to={u}", quantity, to).expect(400);

    JsonNode errors = refused.json().path("errors");
    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(errors.size()).isEqualTo(1);
    assertThat(errors.path(0).path("pointer").asString()).isEqualTo(pointer);
    assertThat(errors.path(0).path("detail").asString()).contains(said);
  }

  @Test
  void both_parameters_are_asked_for_at_once(TestLedger ledger) {
    JsonNode errors = ledger.api().get("/convert").expect(400).json().path("errors");

    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/quantity");
    assertThat(errors.path(1).path("pointer").asString()).isEqualTo("#/to");
  }

  @Test
  void a_very_long_quantity_is_refused_and_not_read_back_in_full(TestLedger ledger) {
    Answer refused = ledger.api().get("/convert?quantity={q}&to=g", "9".repeat(5_000)).expect(400);

    assertThat(refused.body()).contains("5000 characters");
    assertThat(refused.body().length()).isLessThan(1_000);
  }

  @Test
  void a_stranger_is_asked_to_sign_in(TestServer server) {
    server.api().get("/convert?quantity=1%20g&to=oz").expect(401);
  }
}
