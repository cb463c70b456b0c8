package org.tareline.site;

import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import org.h2.mvstore.DataUtils;
import org.h2.mvstore.MVStoreException;
import org.jspecify.annotations.Nullable;

/** Why the database did not do what it was asked, where asking again may help. */
public enum DatabaseFailure {

  /**
   * It cannot be reached, or all connections are in use: class 08 of the SQL standard's states; of
   * PostgreSQL's 53300, 57P01 to 57P05, and 25006, a standby that does not write; of H2's a
   * database that was closed.
   */
  AWAY(503, 5),

  /**
   * Two transactions did not fit together, and this one gave way: 40001, and PostgreSQL's 40P01.
   */
  CONFLICT(503, 1),

  /**
   * Its disk is full, or cannot be written to: PostgreSQL's 53100 and 58030, and H2's 90028, or its
   * store saying that it could not write.
   */
  FULL(507, 60);

  private static final int MOST_CAUSES = 50;

  /** What the pool says, with no state, of a connection that it gave up in the middle. */
  private static final String THROWN_AWAY = "Connection is closed";

  private final int status;
  private final int secondsToWait;

  DatabaseFailure(int status, int secondsToWait) {
    this.status = status;
    this.secondsToWait = secondsToWait;
  }

  int status() {
    return status;
  }

  int secondsToWait() {
    return secondsToWait;
  }

  /** What it was by the causes of an exception; null where it was something else. */
  public static @Nullable DatabaseFailure of(@Nullable Throwable failed) {
    DatabaseFailure found = null;
    Throwable cause = failed;
    for (int depth = 0; cause != null && depth < MOST_CAUSES; depth++) {
      DatabaseFailure named = named(cause);
      // The innermost says it best: that a disk is full closes H2's database.
      found = named == null ? found : named;
      cause = cause.getCause();
    }
    return found;
  }

  private static @Nullable DatabaseFailure named(Throwable cause) {
    if (cause instanceof MVStoreException store) {
      return store.getErrorCode() == DataUtils.ERROR_WRITING_FAILED ? FULL : null;
    }
    return cause instanceof SQLException sql ? of(sql) : null;
  }

  private static @Nullable DatabaseFailure of(SQLException failed) {
    String state = failed.getSQLState() == null ? "" : failed.getSQLState();
    return switch (state) {
      case "40001", "40P01", "55P03", "HYT00" -> CONFLICT;
      case "53100", "58030", "90028", "90031" -> FULL;
      case "53300", "57P01", "57P02", "57P03", "57P05", "25006" -> AWAY;
      case "90007", "90067", "90098", "90121" -> AWAY;
      default ->
          state.startsWith("08")
                  || failed instanceof SQLTransientConnectionException
                  || THROWN_AWAY.equals(failed.getMessage())
              ? AWAY
              : null;
    };
  }
}
