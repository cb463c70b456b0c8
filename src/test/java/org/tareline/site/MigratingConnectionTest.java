package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import com.zaxxer.hikari.HikariDataSource;
import com.zaxxer.hikari.HikariPoolMXBean;
import java.util.Map;
import java.util.Objects;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** A server that has been up for longer than its pool keeps a connection. */
@FeatureTest
class MigratingConnectionTest {

  @Test
  void what_is_checked_is_checked_still_when_the_pool_has_renewed_its_connections(
      TestServer server, TestLedger ledger) throws Exception {
    Api api = ledger.api();
    HikariDataSource pool = server.bean(DataSource.class).unwrap(HikariDataSource.class);
    HikariPoolMXBean connections = Objects.requireNonNull(pool.getHikariPoolMXBean());
    connections.softEvictConnections();

    api.post(
            "/scales",
            Map.of("code", "B", "name", "Bench", "readability", "0.1 g", "capacity", "2 kg"))
        .expect(201);
    api.post("/parts", Map.of("code", "P", "name", "Peg", "system", "hang")).expect(201);
    api.post("/weighings", "{\"part\":\"P\",\"scale\":\"B\",\"readings\":[\"9 g\"]}").expect(201);
    assertThat(connections.getTotalConnections()).isPositive();
  }
}
