package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TimeCodesTest {

  /** Of the test vectors of both RFCs. */
  private static final byte[] SECRET = "12345678901234567890".getBytes(StandardCharsets.US_ASCII);

  /** RFC 4226, Appendix D. */
  @ParameterizedTest
  @CsvSource({
    "0, 755224", "1, 287082", "2, 359152", "3, 969429", "4, 338314",
    "5, 254676", "6, 287922", "7, 162583", "8, 399871", "9, 520489"
  })
  void by_a_counter(long counter, String code) {
    assertThat(TimeCodes.code(SECRET, counter, 6)).isEqualTo(code);
  }

  /** RFC 6238, Appendix B, the rows of SHA-1, with the steps in hexadecimal. */
  @ParameterizedTest
  @CsvSource({
    "59, 0000000000000001, 94287082",
    "1111111109, 00000000023523EC, 07081804",
    "1111111111, 00000000023523ED, 14050471",
    "1234567890, 000000000273EF07, 89005924",
    "2000000000, 0000000003F940AA, 69279037",
    "20000000000, 0000000027BC86AA, 65353130"
  })
  void by_the_time(long seconds, String step, String code) {
    long reached = TimeCodes.step(Instant.ofEpochSecond(seconds));

    assertThat(reached).isEqualTo(Long.parseLong(step, 16));
    assertThat(TimeCodes.code(SECRET, reached, 8)).isEqualTo(code);
  }

  @Test
  void a_clock_may_be_one_step_off_and_no_more() {
    // RFC 4226, Appendix D: the code of counter 1, which is the step from 30 s on.
    String code = "287082";
    for (int second : new int[] {0, 29, 30, 59, 60, 89}) {
      assertThat(TimeCodes.stepOf(code, SECRET, Instant.ofEpochSecond(second)))
          .as(second + " s")
          .hasValue(1);
    }
    for (int second : new int[] {-1, 90}) {
      assertThat(TimeCodes.stepOf(code, SECRET, Instant.ofEpochSecond(second))).isEmpty();
    }
  }

  @Test
  void a_secret_is_typed_in_base_32() {
    // RFC 4648, 10: what five letters give is without padding.
    assertThat(TimeCodes.base32("fooba".getBytes(StandardCharsets.US_ASCII))).isEqualTo("MZXW6YTB");
    assertThat(TimeCodes.base32(new byte[] {0, 0, 0, 0, 1})).isEqualTo("AAAAAAAB");
  }
}
