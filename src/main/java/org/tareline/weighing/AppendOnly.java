package org.tareline.weighing;

import java.sql.Connection;
import java.sql.SQLException;
import org.h2.api.Trigger;
import org.jspecify.annotations.Nullable;

/**
 * The trigger by which H2 refuses to change or delete a weighing, whoever asks; named in its
 * migration.
 */
public final class AppendOnly implements Trigger {

  @Override
  public void fire(Connection connection, Object @Nullable [] before, Object @Nullable [] after)
      throws SQLException {
    throw new SQLException("weighings are append-only: strike one out instead of changing it");
  }
}
