package org.tareline.weighing;

import java.sql.Connection;
import java.sql.SQLException;
import org.h2.api.Trigger;
import org.jspecify.annotations.Nullable;

/**
 * The trigger by which H2 refuses to change or delete a weighing or a life event, whoever asks;
 * named in their migrations.
 */
public final class AppendOnly implements Trigger {

  @Override
  public void fire(Connection connection, Object @Nullable [] before, Object @Nullable [] after)
      throws SQLException {
    throw new SQLException(
        "what was written down is append-only: strike it out instead of changing it");
  }
}
