package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.units.Unit;

class AsTypedTests {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "120 g       | 120 g",
        "120         | 120\u00a0g",
        "± 5 %       | ± 5 %",
        "12,5 g      | 12,5 g",
        "0,125 g     | 0,125 g",
        "1,2345 g    | 1,2345 g",
        "1,234,567 g | 1,234,567 g",
        "1,234.5 g   | 1,234.5 g",
        "1,234 g     | 1,234 g (decimal comma)",
        "± 1,500     | ± 1,500\u00a0g (decimal comma)",
        "3 lb 1,234 oz | 3 lb 1,234 oz (decimal comma)",
      })
  void it_says_what_it_is(String typed, String shown) {
    assertThat(AsTyped.text(typed, Unit.GRAM)).isEqualTo(shown);
  }
}
