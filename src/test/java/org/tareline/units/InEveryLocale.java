package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Runs every test of a class in an English, a German and a Turkish surrounding: commas for points,
 * points for thousands, and an i whose capital is İ.
 */
@ParameterizedClass
@ValueSource(strings = {"en-US", "de-DE", "tr-TR"})
abstract class InEveryLocale {

  private final Locale before = Locale.getDefault();

  @Parameter String locale = "";

  @BeforeEach
  final void surround() {
    Locale.setDefault(Locale.forLanguageTag(locale));
  }

  @Test
  final void theSurroundingIsForeignWhereItSaysSo() {
    // The premise: a careless program would write a comma in two of the three.
    assertThat(String.format(Locale.getDefault(), "%.1f", 0.5))
        .isEqualTo(locale.equals("en-US") ? "0.5" : "0,5");
    assertThat("I".toLowerCase(Locale.getDefault()))
        .isEqualTo(locale.equals("tr-TR") ? "\u0131" : "i");
  }

  @AfterEach
  final void restore() {
    Locale.setDefault(before);
  }
}
