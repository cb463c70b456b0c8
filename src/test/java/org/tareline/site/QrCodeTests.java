package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Random;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.Test;
import org.tareline.testing.QrReader;

/** QR codes are read back by ZXing 3.5's reader, which finds them in a picture. */
class QrCodeTests {

  @Test
  void addresses_come_back() {
    Random random = new Random(18_004);
    for (int i = 0; i < 400; i++) {
      String address = "http://localhost:" + random.nextInt(1024, 65_536) + "/?part=TQ-" + i;

      assertThat(read(address)).isEqualTo(address);
    }
  }

  /** ISO/IEC 18004, table 7: a symbol of version 40 and level M holds 2 331 bytes. */
  @Test
  void as_much_as_a_code_holds_comes_back_and_no_more() {
    String longest = "o".repeat(2_331);

    assertThat(read(longest)).isEqualTo(longest);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> QrCode.of(longest + "o"))
        .withMessage("no QR code holds 2332 characters");
  }

  private static String read(String text) {
    QrCode code = QrCode.of(text);
    return QrReader.read(
        Jsoup.parse(
                "<svg viewBox='0 0 %d %d'><path d='%s'/></svg>"
                    .formatted(code.size(), code.size(), code.path()))
            .expectFirst("svg"));
  }
}
