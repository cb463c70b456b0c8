package org.tareline.site;

import com.zaxxer.hikari.SQLExceptionOverride;
import java.sql.SQLException;

/**
 * Has the pool throw a connection away once the database behind it was found away or full. By
 * itself it goes on with those of an H2 that was closed, which H2 calls good.
 */
public final class LostConnections implements SQLExceptionOverride {

  @java.lang.Override
  public Override adjudicate(SQLException failed) {
    DatabaseFailure failure = DatabaseFailure.of(failed);
    return failure == DatabaseFailure.AWAY || failure == DatabaseFailure.FULL
        ? Override.MUST_EVICT
        : Override.CONTINUE_EVICT;
  }
}
