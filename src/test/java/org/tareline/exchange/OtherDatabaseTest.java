package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.core.ConnectionCallback;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** A ledger moves between a server on H2 and one on PostgreSQL. */
@FeatureTest
class OtherDatabaseTest {

  @Test
  void a_ledger_of_the_one_is_taken_in_by_the_other_and_comes_out_to_the_last_byte(
      TestServer server, @TempDir Path folder) {
    Optional<TestDatabase> other =
        TestDatabase.onPostgresql()
            ? Optional.of(TestDatabase.onH2(folder.resolve("tareline").toString()))
            : TestDatabase.freshOnPostgresql();
    assumeTrue(other.isPresent(), "no PostgreSQL starts here");
    try (TestServer there = TestServer.startOn(other.get())) {
      assertThat(product(there)).isNotEqualTo(product(server));
      TestLedger home = FullLedger.open(server);
      Parcel whole = Parcel.of(home);
      TestLedger copy = there.openLedger();

      whole.putInto(copy).expect(200);

      Parcel out = Parcel.of(copy);
      whole
          .rows()
          .forEach((file, text) -> assertThat(out.files().get(file)).as(file).isEqualTo(text));
      String rollUp = "/rigs/BRIDGE-3-SUMMER/roll-up?scope=anchor-to-anchor";
      assertThat(copy.api().get(rollUp).expect(200).json())
          .isEqualTo(home.api().get(rollUp).expect(200).json());
    }
  }

  private static String product(TestServer server) {
    return server
        .database()
        .execute(
            (ConnectionCallback<String>)
                connection -> connection.getMetaData().getDatabaseProductName());
  }
}
