package org.tareline.units;

import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
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

  @AfterEach
  final void restore() {
    Locale.setDefault(before);
  }
}
