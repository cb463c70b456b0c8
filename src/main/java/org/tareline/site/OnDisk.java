package org.tareline.site;

import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionExecution;
import org.springframework.transaction.TransactionExecutionListener;

/**
 * Has what the embedded database committed written through to the disk before it is acknowledged.
 * H2 hands a commit to the operating system, which survives its own end but not that of the power.
 * PostgreSQL sees to that by itself.
 */
@Component
class OnDisk implements TransactionExecutionListener {

  private final JdbcTemplate database;
  private final boolean isFile;

  OnDisk(DataSource database, @Value("${spring.datasource.url}") String url) {
    // On the connection of the transaction, which is still held.
    this.database = new JdbcTemplate(database);
    this.isFile = url.startsWith("jdbc:h2:file:");
  }

  @Override
  public void afterCommit(TransactionExecution transaction, @Nullable Throwable failed) {
    if (isFile && failed == null && !transaction.isReadOnly()) {
      database.update(connection -> connection.prepareStatement("checkpoint sync"));
    }
  }
}
