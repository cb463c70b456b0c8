package org.tareline.exchange;

import java.sql.SQLException;

/** The embedded database cannot be read to its end. */
final class DamagedDatabase extends RuntimeException {

  DamagedDatabase(SQLException cause) {
    super(cause.getMessage(), cause);
  }
}
