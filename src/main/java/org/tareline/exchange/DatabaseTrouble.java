package org.tareline.exchange;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import org.h2.api.ErrorCode;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;
import org.springframework.core.env.Environment;

/** Says in plain words why the server did not start on its embedded database, and what to do. */
final class DatabaseTrouble extends AbstractFailureAnalyzer<SQLException> {

  private final Environment environment;

  DatabaseTrouble(Environment environment) {
    this.environment = environment;
  }

  @Override
  protected @Nullable FailureAnalysis analyze(Throwable failure, SQLException cause) {
    if (!cause.getClass().getName().startsWith("org.h2.")) {
      return null;
    }
    if (cause.getErrorCode() == ErrorCode.DATABASE_ALREADY_OPEN_1) {
      return new FailureAnalysis(
          "Another server has the database in " + folder() + " open.",
          "Stop it first, or name another folder by TARELINE_DATA_DIR.",
          cause);
    }
    boolean damaged =
        cause.getErrorCode() == ErrorCode.FILE_CORRUPTED_1
            || cause.getErrorCode() == ErrorCode.GENERAL_ERROR_1
            || cause.getErrorCode() == ErrorCode.FILE_VERSION_ERROR_1;
    return damaged
        ? new FailureAnalysis(
            "The database in "
                + folder()
                + " is damaged, and nothing was written to it: "
                + cause.getMessage(),
            advice(),
            cause)
        : null;
  }

  private String folder() {
    return String.valueOf(environment.getProperty("tareline.data-dir"));
  }

  private String advice() {
    try {
      List<Path> backups = BackupSettings.of(environment).backups().all();
      if (!backups.isEmpty()) {
        return "The newest good backup is "
            + backups.get(0)
            + " of "
            + Backups.madeAt(backups.get(0))
            + ". To put it in the place of the damaged one, which is kept beside it, start once with --restore=newest .";
      }
    } catch (IOException unreadable) {
      return "The backups cannot be listed either: " + unreadable.getMessage();
    }
    return "There is no backup in "
        + environment.getProperty("tareline.backup.folder")
        + ". Keep the file as it is and ask somebody who knows H2: its own recovery tool may read what is left.";
  }
}
