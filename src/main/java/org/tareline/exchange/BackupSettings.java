package org.tareline.exchange;

import java.nio.file.Path;
import java.time.Duration;
import org.springframework.core.env.Environment;

/**
 * Where backups go, how often they are made and how many are kept.
 *
 * @param data the folder of the database
 */
record BackupSettings(
    Path data, Path folder, Duration every, int keep, String user, String password) {

  static BackupSettings of(Environment environment) {
    return new BackupSettings(
        Path.of(environment.getRequiredProperty("tareline.data-dir")),
        Path.of(environment.getRequiredProperty("tareline.backup.folder")),
        environment.getRequiredProperty("tareline.backup.every", Duration.class),
        environment.getRequiredProperty("tareline.backup.keep", Integer.class),
        // As Spring opens a database file where none is named: as nobody.
        environment.getProperty("spring.datasource.username", ""),
        environment.getProperty("spring.datasource.password", ""));
  }

  Backups backups() {
    return new Backups(data, folder, user, password);
  }
}
