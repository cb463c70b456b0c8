package org.tareline.site;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import org.flywaydb.core.api.configuration.FluentConfiguration;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.boot.flyway.autoconfigure.FlywayConfigurationCustomizer;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.stereotype.Component;

/**
 * Has the embedded database migrated through connections that stay open as long as the server runs.
 * H2 evaluates a check with a list of words in the session that made it: once that is closed, as a
 * pool does to a connection of some age, every row is refused with "database has been closed".
 */
@Component
class MigratingConnection implements FlywayConfigurationCustomizer, DisposableBean {

  private final JdbcConnectionDetails database;
  private @Nullable HikariDataSource held;

  MigratingConnection(JdbcConnectionDetails database) {
    this.database = database;
  }

  @Override
  public void customize(FluentConfiguration configuration) {
    if (database.getJdbcUrl().startsWith("jdbc:h2:")) {
      HikariConfig forGood = new HikariConfig();
      forGood.setPoolName("migrating");
      forGood.setJdbcUrl(database.getJdbcUrl());
      forGood.setUsername(database.getUsername());
      forGood.setPassword(database.getPassword());
      forGood.setMaxLifetime(0);
      // Flyway holds one for its history and one for what it does.
      forGood.setMaximumPoolSize(2);
      held = new HikariDataSource(forGood);
      configuration.dataSource(held);
    }
  }

  @Override
  public void destroy() {
    if (held != null) {
      held.close();
    }
  }
}
