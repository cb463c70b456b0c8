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
import java.util.Objects;
import java.util.zip.ZipException;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.exchange.ImportReport.OfTable;
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
  private final TransactionOperations transactions;
  private final Authors authors;
  private final ReadingAgain readingAgain;
  private final Parts parts;
  private final JsonMapper json;
  private final Clock clock;

  LedgerImport(
      JdbcTemplate database,
      TransactionOperations transactions,
      Authors authors,
      ReadingAgain readingAgain,
      Parts parts,
      JsonMapper json,
      Clock clock) {
    this.database = database;
    this.transactions = transactions;
    this.authors = authors;
    this.readingAgain = readingAgain;
    this.parts = parts;
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
      if (!opened.troubles().none()) {
        return opened.troubles().report(dryRun, List.of());
      }
      return Objects.requireNonNull(
          transactions.execute(
              transaction -> {
                progress.expect(opened.rowsInAll());
                Problems problems = new Problems();
                WrittenLines lines = new WrittenLines();
                List<OfTable> tables = write(member, opened, progress, problems, lines);
                if (problems.none()) {
                  readingAgain.read(member, lines, problems);
                }
                if (dryRun || !problems.none()) {
                  transaction.setRollbackOnly();
                }
                return problems.report(dryRun, tables);
              }));
    } catch (ZipException noZip) {
      Problems damaged = new Problems();
      damaged.note("", 1, "", "The file is not a zip, or it is damaged.");
      return damaged.report(dryRun, List.of());
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  /**
   * Takes in files that ship with the program, in the transaction of the caller where it has one.
   * They are not read again: tests have done so.
   *
   * @throws IllegalStateException if they cannot be taken in
   */
  void takeIn(Member member, LedgerFiles shipped) {
    transactions.executeWithoutResult(
        transaction -> {
          Problems problems = new Problems();
          write(member, shipped, new ImportProgress(), problems, new WrittenLines());
          if (!problems.none()) {
            throw new IllegalStateException(
                "Not taken in: " + problems.report(false, List.of()).problems());
          }
        });
  }

  private List<OfTable> write(
      Member member,
      LedgerFiles files,
      ImportProgress progress,
      Problems problems,
      WrittenLines lines) {
    OffsetDateTime now = clock.instant().truncatedTo(ChronoUnit.MICROS).atOffset(ZoneOffset.UTC);
    List<OfTable> tables =
        Objects.requireNonNull(
            database.execute(
                (ConnectionCallback<List<OfTable>>)
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
                        return new Intake(
                                connection, member, authors, progress, now, problems, lines)
                            .takeIn(files);
                      } catch (IOException unreadable) {
                        throw new UncheckedIOException(unreadable);
                      } catch (Intake.Broken broken) {
                        throw broken.getCause() instanceof SQLException fault
                            ? fault
                            : new SQLException(broken);
                      }
                    }));
    if (problems.none()) {
      parts.noteWhichWait(member);
    }
    return tables;
  }
}
