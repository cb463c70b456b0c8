package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;

/** What stands between a commit and its acknowledgement on the embedded database. */
@FeatureTest
class OnDiskTest {

  private static final String SYNC = "checkpoint sync";

  @Test
  void a_write_on_the_embedded_database_is_written_through_and_a_look_is_not(TestLedger ledger) {
    ledger.api().get("/parts").expect(200);
    List<String> written =
        ledger.statements(
            () -> ledger.api().post("/parts", Map.of("code", "P", "name", "Peg")).expect(201));
    assertThat(written).anyMatch(sql -> sql.startsWith("insert into part "));
    if (TestDatabase.onPostgresql()) {
      assertThat(written).doesNotContain(SYNC);
    } else {
      assertThat(written).contains(SYNC);
      assertThat(written.subList(written.indexOf(SYNC), written.size()))
          .noneMatch(sql -> sql.startsWith("insert"));
    }

    assertThat(ledger.statements(() -> ledger.api().get("/parts").expect(200)))
        .isNotEmpty()
        .doesNotContain(SYNC);
  }
}
