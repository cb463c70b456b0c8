package org.tareline.exchange;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import javax.sql.DataSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.flyway.autoconfigure.FlywayMigrationStrategy;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.env.Environment;
import org.springframework.scheduling.annotation.EnableScheduling;
import org.springframework.scheduling.annotation.Scheduled;

/**
 * Backs the embedded database up from time to time, and reads it to its end before anything else
 * does. A PostgreSQL is its owner's to back up.
 */
@Configuration(proxyBeanMethods = false)
@EnableScheduling
class BackupRoutine {

  private static final Logger LOG = LoggerFactory.getLogger(BackupRoutine.class);

  private final DataSource database;
  private final BackupSettings settings;
  private final Clock clock;

  BackupRoutine(DataSource database, Environment environment, Clock clock) {
    this.database = database;
    this.settings = BackupSettings.of(environment);
    this.clock = clock;
  }

  /** A damaged database is refused before a migration writes to it. */
  @Bean
  static FlywayMigrationStrategy readFirst(DataSource database) {
    return flyway -> {
      try (Connection connection = database.getConnection()) {
        if (isFile(connection)) {
          Backups.readToItsEnd(connection);
        }
      } catch (SQLException damaged) {
        throw new DamagedDatabase(damaged);
      }
      flyway.migrate();
    };
  }

  @Scheduled(initialDelayString = "PT1M", fixedDelayString = "PT10M")
  void backUpIfDue() {
    try {
      Backups backups = settings.backups();
      Instant now = clock.instant();
      List<Path> all = backups.all();
      if (!settings.every().isZero()
          && (all.isEmpty()
              || Duration.between(Backups.madeAt(all.get(0)), now).compareTo(settings.every())
                  >= 0)) {
        try (Connection connection = database.getConnection()) {
          if (isFile(connection)) {
            LOG.info("Backed up to {}", backups.make(connection, now));
            backups.keep(settings.keep());
          }
        }
      }
    } catch (IOException | SQLException failed) {
      LOG.error("No backup could be made; the next try is in ten minutes", failed);
    }
  }

  private static boolean isFile(Connection connection) throws SQLException {
    return connection.getMetaData().getURL().startsWith("jdbc:h2:file:");
  }
}
