package org.tareline.exchange;

import java.sql.Connection;
import java.sql.SQLException;
import javax.sql.DataSource;
import org.springframework.boot.flyway.autoconfigure.FlywayMigrationStrategy;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.scheduling.annotation.EnableScheduling;
import org.springframework.scheduling.annotation.Scheduled;

/**
 * Backs the embedded database up from time to time, and reads it to its end before anything else
 * does.
 */
@Configuration(proxyBeanMethods = false)
@EnableScheduling
class BackupRoutine {

  private final ServerBackups backups;

  BackupRoutine(ServerBackups backups) {
    this.backups = backups;
  }

  /** A damaged database is refused before a migration writes to it. */
  @Bean
  static FlywayMigrationStrategy readFirst(DataSource database) {
    return flyway -> {
      try (Connection connection = database.getConnection()) {
        if (ServerBackups.isFile(connection)) {
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
    backups.makeIfDue();
  }
}
