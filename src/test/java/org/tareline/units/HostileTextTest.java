package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Text made to hang or to fill a log is refused at once, whichever door it comes through. */
class HostileTextTest extends InEveryLocale {

  /** Each takes some milliseconds; the rest is for a busy machine. What hangs, hangs for longer. */
  private static final Duration AT_ONCE = Duration.ofSeconds(10);

  @ParameterizedTest(name = "text {index}")
  @MethodSource("texts")
  void isRefusedAtOnce(String text) {
    assertTimeoutPreemptively(
        AT_ONCE,
        () -> {
          isRefused(() -> Quantity.read(text));
          isRefused(() -> Quantity.read(text, Kind.MASS, Unit.GRAM));
          isRefused(() -> Quantity.readMany(text, Kind.MASS, Unit.GRAM));
          isRefused(() -> Quantity.of(text, Unit.GRAM));
          isRefused(() -> Tolerance.read(text, Kind.MASS, Unit.GRAM));
          isRefused(() -> Quantity.read(text, Kind.MASS, Unit.GRAM, DecimalMark.EITHER));
          isRefused(() -> Percent.parse(text));
          isRefused(() -> Unit.named(text));
        });
  }

  private static void isRefused(ThrowingCallable reading) {
    UnreadableQuantity refusal = catchThrowableOfType(UnreadableQuantity.class, reading);
    assertThat(refusal).isNotNull();
    assertThat(refusal.getMessage()).hasSizeLessThan(600);
    assertThat(refusal.text()).hasSizeLessThanOrEqualTo(10_000);
    assertThat(refusal.position()).isBetween(0, refusal.text().length());
  }

  static Stream<String> texts() {
    return Stream.of(
        "9".repeat(100_000),
        "9".repeat(100_000) + " g",
        "9".repeat(190) + " g",
        "0.".repeat(50_000),
        "1/".repeat(50_000) + "1 g",
        "1 1/".repeat(50_000),
        "1 lb ".repeat(20_000),
        " ".repeat(100_000) + "g g",
        "-".repeat(100_000),
        "½".repeat(100_000),
        "1;".repeat(4_999),
        "1 " + "oz/".repeat(30_000),
        "1 " + "[".repeat(100_000),
        "1e999999999 g",
        "1e-999999999",
        "1E2147483648",
        "1" + "0".repeat(150) + " %",
        "🙂".repeat(50_000),
        "1 " + "\u0130".repeat(150));
  }
}
