package org.tareline.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.zip.ZipException;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.ledger.Authors;
import org.tareline.ledger.Member;
import org.tareline.part.Parts;
import tools.jackson.databind.json.JsonMapper;

/**
 * Takes a zip of a ledger into a ledger, all of it or nothing. A dry run does all the same and
 * takes it back at the end, so that what it says is what the import would do.
 */
@Service
public class LedgerImport {

  private final JdbcTemplate database;
  private final Parts parts;
  private final TransactionOperations transactions;
  private final Authors authors;
  private final JsonMapper json;
  private final Clock clock;

  LedgerImport(
      JdbcTemplate database,
      Parts parts,
      TransactionOperations transactions,
      Authors authors,
      JsonMapper json,
      Clock clock) {
    this.database = database;
    this.parts = parts;
    this.transactions = transactions;
    this.authors = authors;
    this.json = json;
    this.clock = clock;
  }

  /**
   * Takes a zip in.
   *
   * @param zip a file that nobody changes meanwhile
   * @return what was done; where it has problems, nothing was
   */
  public ImportReport takeIn(Member member, Path zip, boolean dryRun, ImportProgress progress) {
    try (LedgerZip opened = LedgerZip.open(zip, json)) {
      if (!opened.troubles().isEmpty()) {
        return refused(dryRun, opened.troubles());
      }
      ImportReport report =
          transactions.execute(
              transaction -> {
                progress.expect(opened.rowsInAll());
                ImportReport found = takeIn(member, opened, dryRun, progress);
                if (dryRun || !found.good()) {
                  transaction.setRollbackOnly();
                }
                return found;
              });
      return java.util.Objects.requireNonNull(report);
    } catch (ZipException noZip) {
      return refused(
          dryRun, List.of(new BadRow("", 1, "", "The file is not a zip, or it is damaged.")));
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  /**
   * Takes in files that ship with the program, in the transaction of the caller where it has one.
   *
   * @throws IllegalStateException if they cannot be taken in
   */
  void takeIn(Member member, LedgerFiles shipped) {
    transactions.executeWithoutResult(
        transaction -> {
          ImportReport report = takeIn(member, shipped, false, new ImportProgress());
          if (!report.good()) {
            throw new IllegalStateException("Not taken in: " + report.problems());
          }
        });
  }

  private static ImportReport refused(boolean dryRun, List<BadRow> troubles) {
    return new ImportReport(dryRun, List.of(), List.copyOf(troubles), troubles.size());
  }

  private ImportReport takeIn(
      Member member, LedgerFiles files, boolean dryRun, ImportProgress progress) {
    OffsetDateTime now = clock.instant().truncatedTo(ChronoUnit.MICROS).atOffset(ZoneOffset.UTC);
    ImportReport report =
        java.util.Objects.requireNonNull(
            database.execute(
                (ConnectionCallback<ImportReport>)
                    connection -> {
                      // One at a time in a ledger; others go on writing to it meanwhile.
                      String weaker =
                          connection.getMetaData().getDatabaseProductName().equals("PostgreSQL")
                              ? "no key "
                              : "";
                      try (PreparedStatement lock =
                          connection.prepareStatement(
                              "select id from ledger where id = ? for " + weaker + "update")) {
                        lock.setLong(1, member.ledgerId());
                        lock.executeQuery().close();
                      }
                      try {
                        return new Intake(connection, member, authors, progress, now)
                            .takeIn(files, dryRun);
                      } catch (IOException unreadable) {
                        throw new UncheckedIOException(unreadable);
                      } catch (Intake.Broken broken) {
                        throw broken.getCause() instanceof SQLException fault
                            ? fault
                            : new SQLException(broken);
                      }
                    }));
    if (report.good()) {
      parts.noteWhichWait(member);
    }
    return report;
  }
}
