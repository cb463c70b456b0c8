package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.evidence.Fibre;
import org.tareline.part.Parts;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** A file of parts may name a fibre for each, and need not have the column at all. */
@FeatureTest
class FibreColumnTest {

  @Autowired private LedgerIntake intake;
  @Autowired private Parts parts;

  @Test
  void a_part_takes_on_the_fibre_of_its_row(TestLedger ledger) {
    intake.takeIn(ledger.member(), files("code,fibre", "TQ,down", "PEG,"));

    assertThat(parts.get(ledger.member(), "TQ").fibre()).contains(Fibre.DOWN);
    assertThat(parts.get(ledger.member(), "PEG").fibre()).isEmpty();
  }

  @Test
  void without_the_column_no_part_has_one(TestLedger ledger) {
    intake.takeIn(ledger.member(), files("code", "TQ", "PEG"));

    assertThat(parts.all(ledger.member())).hasSize(2).allMatch(part -> part.fibre().isEmpty());
  }

  @Test
  void a_word_that_is_no_fibre_is_refused_with_its_place(TestLedger ledger) {
    LedgerFiles files = files("code,fibre", "TQ,silk", "PEG,");

    BadRows refused =
        catchThrowableOfType(BadRows.class, () -> intake.takeIn(ledger.member(), files));

    assertThat(refused.rows()).hasSize(1);
    assertThat(refused.rows().get(0).toString()).startsWith("parts.csv, line 2, column fibre: ");
    assertThat(parts.all(ledger.member())).isEmpty();
  }

  /** Nothing but parts: the other columns are empty, and so are the other files. */
  private static LedgerFiles files(String header, String... rows) {
    StringBuilder text = new StringBuilder(header);
    text.append(",name,system,owned,stated,tolerance,former-codes,note\n");
    for (String row : rows) {
      text.append(row).append(",A thing,,,,,,\n");
    }
    Map<String, String> written = Map.of("parts.csv", text.toString());
    return name ->
        new ByteArrayInputStream(
            written.getOrDefault(name, header(name)).getBytes(StandardCharsets.UTF_8));
  }

  private static String header(String name) {
    try (InputStream sample = SampleLedger.FILES.open(name)) {
      String text =
          new String(Objects.requireNonNull(sample).readAllBytes(), StandardCharsets.UTF_8);
      return text.substring(0, text.indexOf('\n') + 1);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
