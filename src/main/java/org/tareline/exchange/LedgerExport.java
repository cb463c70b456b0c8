package org.tareline.exchange;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import org.tareline.ledger.Member;
import org.tareline.site.Sha256;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes a whole ledger as one zip: a CSV file (RFC 4180, UTF-8) for each table, and last a
 * manifest that says how many rows each has and what its SHA-256 is. All of it is of one moment,
 * and it is written while it is read, so that it takes no more memory for more rows.
 */
@Service
public class LedgerExport {

  private final JdbcTemplate database;
  private final TransactionTemplate atOneMoment;
  private final JsonMapper json;
  private final Clock clock;

  LedgerExport(
      JdbcTemplate database,
      PlatformTransactionManager transactions,
      JsonMapper json,
      Clock clock) {
    this.database = database;
    this.atOneMoment = new TransactionTemplate(transactions);
    atOneMoment.setReadOnly(true);
    atOneMoment.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    this.json = json;
    this.clock = clock;
  }

  /** The name of a file of the ledger as it is today. */
  public String fileName() {
    return "tareline-" + clock.instant().atZone(clock.getZone()).toLocalDate() + ".zip";
  }

  /**
   * Writes the ledger of a member; the stream stays open.
   *
   * @throws UncheckedIOException if it cannot be written to
   */
  public void write(Member member, OutputStream to) {
    Instant now = clock.instant().truncatedTo(ChronoUnit.SECONDS);
    atOneMoment.executeWithoutResult(
        transaction ->
            database.execute(
                (ConnectionCallback<Boolean>)
                    connection -> {
                      write(connection, member.ledgerId(), now, to);
                      return true;
                    }));
  }

  private void write(Connection connection, long ledger, Instant now, OutputStream to)
      throws SQLException {
    try {
      ZipOutputStream zip = new ZipOutputStream(to, StandardCharsets.UTF_8);
      StoredRows rows = new StoredRows(connection, ledger, KeptStates.of(connection, ledger));
      List<Manifest.Entry> entries = new ArrayList<>();
      for (Table table : LedgerTables.ALL) {
        zip.putNextEntry(entry(table.file()));
        entries.add(write(rows, table, zip));
        zip.closeEntry();
      }
      zip.putNextEntry(entry(Manifest.FILE));
      zip.write(
          json.writerWithDefaultPrettyPrinter()
              .writeValueAsBytes(
                  new Manifest(Manifest.FORMAT, Manifest.VERSION, now.toString(), entries)));
      zip.closeEntry();
      zip.finish();
      to.flush();
    } catch (IOException unwritable) {
      throw new UncheckedIOException(unwritable);
    }
  }

  /** Without a time of its own, so that the same rows are the same bytes. */
  private static ZipEntry entry(String name) {
    ZipEntry entry = new ZipEntry(name);
    entry.setTimeLocal(LocalDateTime.of(1980, 1, 1, 0, 0));
    return entry;
  }

  private static Manifest.Entry write(StoredRows rows, Table table, OutputStream zip)
      throws IOException, SQLException {
    MessageDigest digest = Sha256.begun();
    OutputStream digested = new DigestOutputStream(new LeftOpen(zip), digest);
    Writer text = new OutputStreamWriter(digested, StandardCharsets.UTF_8);
    long[] count = {0};
    try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
      printer.printRecord(table.fields().stream().map(Field::heading).toList());
      rows.all(
          table,
          row -> {
            try {
              printer.printRecord(row.cells());
              count[0]++;
            } catch (IOException unwritable) {
              throw new UncheckedIOException(unwritable);
            }
          });
    }
    return new Manifest.Entry(table.file(), count[0], Sha256.hex(digest));
  }

  /** The zip goes on after one of its files is closed. */
  private static final class LeftOpen extends FilterOutputStream {

    LeftOpen(OutputStream out) {
      super(out);
    }

    @Override
    public void write(byte[] bytes, int from, int length) throws IOException {
      out.write(bytes, from, length);
    }

    @Override
    public void close() throws IOException {
      flush();
    }
  }
}
