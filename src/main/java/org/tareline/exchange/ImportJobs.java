package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.ledger.Member;
import tools.jackson.databind.json.JsonMapper;

/**
 * Imports that pages follow: tried first, and done when somebody says so. They are rows of the
 * database, zip and all, so that any server on it knows them, and are thrown away after a day. The
 * server that is at one says so every few seconds; when it does so no more, the import has ended,
 * and can no longer be written even if that server was only slow.
 */
@Service
public class ImportJobs implements AutoCloseable {

  private static final Logger LOG = LoggerFactory.getLogger(ImportJobs.class);

  private static final int PIECE = 1 << 19;
  private static final int SECONDS_BETWEEN_BEATS = 5;
  private static final int SECONDS_TO_STOP = 20;

  private static final String RUNS = "stage in ('trying', 'taking in')";
  private static final String IS_GONE =
      RUNS + " and seen_at < current_timestamp - interval '2' minute";

  /** How far it has come. */
  public enum Stage {
    TRYING,
    /** Tried; what it would do is known. */
    TRIED,
    TAKING_IN,
    DONE,
    /** The server broke; nothing was written. */
    BROKEN,
    /** The server stopped or is gone; nothing was written. */
    ENDED;

    private String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /**
   * An import of one member's.
   *
   * @param name what the file was called where it came from
   * @param rows that were read
   * @param rowsInAll that there are, by the manifest; 0 where there is none
   * @param file that is being read; empty before the first
   * @param report what it would do, or did; null while it runs
   */
  public record Job(
      UUID id,
      String name,
      Stage stage,
      long rows,
      long rowsInAll,
      String file,
      @Nullable ImportReport report) {}

  private final LedgerImport imports;
  private final JdbcTemplate database;
  private final TransactionOperations transactions;
  private final JsonMapper json;

  private record Running(long ledger, ImportProgress progress) {}

  /** Those that this server is at, or will be. */
  private final Map<UUID, Running> here = new ConcurrentHashMap<>();

  private final ExecutorService oneAfterAnother =
      Executors.newSingleThreadExecutor(named("import"));
  private final ScheduledExecutorService beats =
      Executors.newSingleThreadScheduledExecutor(named("import-beat"));

  ImportJobs(
      LedgerImport imports,
      JdbcTemplate database,
      TransactionOperations transactions,
      JsonMapper json) {
    this.imports = imports;
    this.database = database;
    this.transactions = transactions;
    this.json = json;
    beats.scheduleWithFixedDelay(
        this::beat, SECONDS_BETWEEN_BEATS, SECONDS_BETWEEN_BEATS, TimeUnit.SECONDS);
    beats.scheduleWithFixedDelay(this::sweep, 1, 60, TimeUnit.MINUTES);
  }

  private static ThreadFactory named(String name) {
    return work -> {
      Thread thread = new Thread(work, name);
      thread.setDaemon(true);
      return thread;
    };
  }

  /**
   * Begins to try a zip; an earlier one of the member's that does not run is forgotten.
   *
   * @param zip is read at once
   * @return by which it is found
   */
  public UUID begin(Member member, Path zip, String name) {
    UUID id = UUID.randomUUID();
    transactions.executeWithoutResult(
        transaction -> {
          database.update(
              "delete from import_job where ledger_id = ? and account_id = ? and (not "
                  + RUNS
                  + " or "
                  + IS_GONE
                  + ")",
              member.ledgerId(),
              member.accountId());
          database.update(
              "insert into import_job (ledger_id, uuid, account_id, name, stage, rows_read, rows_in_all, file, begun_at,"
                  + " seen_at) values (?, ?, ?, ?, 'trying', 0, 0, '', current_timestamp, current_timestamp)",
              member.ledgerId(),
              id,
              member.accountId(),
              name);
          keep(member, id, zip);
        });
    run(member, id, true);
    return id;
  }

  private void keep(Member member, UUID id, Path zip) {
    try (InputStream bytes = Files.newInputStream(zip)) {
      int position = 0;
      for (byte[] piece = bytes.readNBytes(PIECE);
          piece.length > 0;
          piece = bytes.readNBytes(PIECE)) {
        database.update(
            "insert into import_piece (job_id, ledger_id, position, bytes)"
                + " select id, ledger_id, ?, ? from import_job where ledger_id = ? and uuid = ?",
            position++,
            piece,
            member.ledgerId(),
            id);
      }
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  /** One of the member's in the ledger. */
  public Optional<Job> find(Member member, UUID id) {
    // Whoever asks first after its server went away writes down that it has ended.
    database
        .queryForList(
            "select id from import_job where ledger_id = ? and uuid = ? and " + IS_GONE,
            Long.class,
            member.ledgerId(),
            id)
        .forEach(gone -> end(member, id, Stage.ENDED));
    RowMapper<Job> read =
        (row, number) ->
            new Job(
                id,
                row.getString("name"),
                Stage.valueOf(row.getString("stage").toUpperCase(Locale.ROOT).replace(' ', '_')),
                row.getLong("rows_read"),
                row.getLong("rows_in_all"),
                row.getString("file"),
                row.getString("report") == null
                    ? null
                    : json.readValue(row.getString("report"), ImportReport.class));
    return database
        .query(
            "select name, stage, rows_read, rows_in_all, file, report from import_job"
                + " where ledger_id = ? and uuid = ? and account_id = ?",
            read,
            member.ledgerId(),
            id,
            member.accountId())
        .stream()
        .findFirst();
  }

  /** Does what was tried; nothing where there is a problem, or it was done. */
  public void take(Member member, UUID id) {
    boolean good = find(member, id).map(Job::report).filter(ImportReport::good).isPresent();
    if (good
        && database.update(
                "update import_job set stage = 'taking in', report = null, rows_read = 0, seen_at = current_timestamp"
                    + " where ledger_id = ? and uuid = ? and stage = 'tried'",
                member.ledgerId(),
                id)
            == 1) {
      run(member, id, false);
    }
  }

  private void run(Member member, UUID id, boolean dryRun) {
    ImportProgress progress = new ImportProgress();
    here.put(id, new Running(member.ledgerId(), progress));
    oneAfterAnother.execute(
        () -> {
          try {
            Path zip = putTogether(member, id);
            try {
              read(member, id, zip, dryRun, progress);
            } finally {
              Files.deleteIfExists(zip);
            }
          } catch (ImportProgress.Stopped stopped) {
            end(member, id, Stage.ENDED);
          } catch (IOException | RuntimeException broken) {
            LOG.error("An import broke, and nothing of it was written", broken);
            end(member, id, Stage.BROKEN);
          } finally {
            here.remove(id);
          }
        });
  }

  private Path putTogether(Member member, UUID id) throws IOException {
    Path zip = Files.createTempFile("tareline-", ".zip");
    try (OutputStream to = Files.newOutputStream(zip)) {
      List<Integer> positions =
          database.queryForList(
              "select p.position from import_piece p join import_job j on j.id = p.job_id and j.ledger_id = p.ledger_id"
                  + " where j.ledger_id = ? and j.uuid = ? order by p.position",
              Integer.class,
              member.ledgerId(),
              id);
      for (Integer position : positions) {
        to.write(
            database.queryForObject(
                "select p.bytes from import_piece p join import_job j on j.id = p.job_id and j.ledger_id = p.ledger_id"
                    + " where j.ledger_id = ? and j.uuid = ? and p.position = ?",
                byte[].class,
                member.ledgerId(),
                id,
                position));
      }
      return zip;
    } catch (IOException | RuntimeException failed) {
      Files.deleteIfExists(zip);
      throw failed;
    }
  }

  /** What it did and that it is done are written together, and neither once it has ended. */
  private void read(Member member, UUID id, Path zip, boolean dryRun, ImportProgress progress) {
    ImportReport report =
        dryRun
            ? imports.takeIn(member, zip, true, progress)
            : transactions.execute(
                transaction -> {
                  ImportReport done = imports.takeIn(member, zip, false, progress);
                  if (!done.good()) {
                    transaction.setRollbackOnly();
                  } else if (!finish(member, id, Stage.DONE, done, progress)) {
                    throw new ImportProgress.Stopped();
                  }
                  return done;
                });
    if (report != null && (dryRun || !report.good())) {
      finish(member, id, dryRun ? Stage.TRIED : Stage.DONE, report, progress);
    }
  }

  private boolean finish(
      Member member, UUID id, Stage stage, ImportReport report, ImportProgress progress) {
    boolean still =
        database.update(
                "update import_job set stage = ?, report = ?, rows_read = ?, rows_in_all = ?, file = ''"
                    + " where ledger_id = ? and uuid = ? and "
                    + RUNS,
                stage.word(),
                json.writeValueAsString(report),
                progress.rows(),
                progress.rowsInAll(),
                member.ledgerId(),
                id)
            == 1;
    if (stage == Stage.DONE || !report.good()) {
      throwAwayZip(member, id);
    }
    return still;
  }

  private void end(Member member, UUID id, Stage how) {
    try {
      database.update(
          "update import_job set stage = ? where ledger_id = ? and uuid = ? and " + RUNS,
          how.word(),
          member.ledgerId(),
          id);
      throwAwayZip(member, id);
    } catch (RuntimeException unwritable) {
      LOG.warn("How an import ended could not be written down: {}", unwritable.getMessage());
    }
  }

  private void throwAwayZip(Member member, UUID id) {
    database.update(
        "delete from import_piece where ledger_id = ? and job_id in"
            + " (select id from import_job where ledger_id = ? and uuid = ?)",
        member.ledgerId(),
        member.ledgerId(),
        id);
  }

  /** Says how far those have come that this server is at, and so that it is there. */
  void beat() {
    here.forEach(
        (id, running) -> {
          ImportProgress progress = running.progress();
          try {
            database.update(
                "update import_job set rows_read = ?, rows_in_all = ?, file = ?, seen_at = current_timestamp"
                    + " where ledger_id = ? and uuid = ? and "
                    + RUNS,
                progress.rows(),
                progress.rowsInAll(),
                progress.file(),
                running.ledger(),
                id);
          } catch (RuntimeException unwritable) {
            LOG.warn("How far an import is could not be written down: {}", unwritable.getMessage());
          }
        });
  }

  /** Throws away what is older than a day, in all ledgers. */
  void sweep() {
    try {
      database.update(
          "delete from import_job where begun_at < current_timestamp - interval '1' day");
    } catch (RuntimeException unwritable) {
      LOG.warn("Old imports could not be thrown away: {}", unwritable.getMessage());
    }
  }

  /** Ends what runs at its next row; nothing of it is written. */
  @Override
  public void close() {
    here.values().forEach(running -> running.progress().stop());
    oneAfterAnother.shutdown();
    try {
      // Never by an interrupt, at which the embedded database closes its file.
      if (!oneAfterAnother.awaitTermination(SECONDS_TO_STOP, TimeUnit.SECONDS)) {
        LOG.warn("An import was still running when the server stopped; nothing of it is written");
      }
    } catch (InterruptedException hurried) {
      Thread.currentThread().interrupt();
    }
    beats.shutdown();
  }
}
