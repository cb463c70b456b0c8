package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTableTest {

  @Test
  void a_table_is_headings_and_lines_that_end_as_rfc_4180_has_it() {
    CsvTable table =
        new CsvTable("name", "mass [g]").line("Tarp, \"grey\"", new BigDecimal("1E+2"));

    assertThat(table.toString()).isEqualTo("name,mass [g]\r\n\"Tarp, \"\"grey\"\"\",100\r\n");
  }

  @ParameterizedTest
  @ValueSource(strings = {"=1+1", "+1", "-1", "@sum", "\tx", "\rx", "\nx"})
  void text_that_a_spreadsheet_would_run_gets_an_apostrophe(String words) {
    assertThat(new CsvTable("a").line(words).toString()).contains("'" + words);
  }

  @Test
  void a_figure_below_zero_stays_a_figure() {
    assertThat(new CsvTable("a", "b").line(new BigDecimal("-0.5"), -3).toString())
        .isEqualTo("a,b\r\n-0.5,-3\r\n");
  }

  @Test
  void what_is_not_known_is_an_empty_cell() {
    assertThat(new CsvTable("a", "b", "c").line("x", null, 2).toString()).endsWith("\r\nx,,2\r\n");
  }
}
