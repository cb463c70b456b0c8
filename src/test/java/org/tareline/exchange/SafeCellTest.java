package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SafeCellTest {

  /** OWASP, "CSV Injection": cells that begin with one of these are run as formulas. */
  private static final String RUN_AS_FORMULA = "=+-@\t\r\n";

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "'",
        "''",
        "=1+1",
        "'=1+1",
        "+1",
        "-5 oz",
        "@SUM(A1)",
        "\tx",
        "\rx",
        "\nx",
        "plain",
        "it's",
        "''=x",
        " =x"
      })
  void a_text_comes_back_as_it_was(String text) {
    assertThat(SafeCell.read(SafeCell.write(text))).isEqualTo(text);
    assertThat(SafeCell.write(text)).isNotEmpty();
  }

  @Test
  void any_text_comes_back_as_it_was_and_none_is_run_as_a_formula() {
    Random random = new Random(20270411);
    String letters = "=+-@\t\r\n' \",;aé中0{}";
    for (int i = 0; i < 100_000; i++) {
      StringBuilder text = new StringBuilder();
      for (int length = random.nextInt(6); length > 0; length--) {
        text.append(letters.charAt(random.nextInt(letters.length())));
      }
      String cell = SafeCell.write(text.toString());
      assertThat(SafeCell.read(cell)).isEqualTo(text.toString());
      assertThat(RUN_AS_FORMULA.indexOf(cell.charAt(0))).as(cell).isNegative();
    }
  }
}
