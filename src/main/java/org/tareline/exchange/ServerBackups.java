package org.tareline.exchange;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.ReentrantLock;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Service;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/**
 * The backups of the embedded database: made when they are due or somebody wants one, and listed.
 * Each holds every ledger of the server. A PostgreSQL is its owner's to back up.
 */
@Service
public class ServerBackups {

  private static final Logger LOG = LoggerFactory.getLogger(ServerBackups.class);

  /**
   * A backup.
   *
   * @param readAt when it was last read to its end: when it was made, or later
   * @param damage what was wrong when it was read again; null where nothing was
   */
  public record Kept(
      String name, Instant madeAt, long bytes, Instant readAt, @Nullable String damage) {}

  /** What kept the last one from being made, in words. */
  public record Failure(Instant at, String words) {}

  /**
   * How things stand.
   *
   * @param database the database's name where it is none that is backed up here; else null
   * @param every zero: never by itself
   * @param kept newest first
   * @param failure since the server started, and since the last one that was made; else null
   */
  public record Standing(
      @Nullable String database,
      Path folder,
      Duration every,
      int most,
      List<Kept> kept,
      @Nullable Failure failure) {}

  private record Reading(Instant at, @Nullable String damage) {}

  private final DataSource database;
  private final BackupSettings settings;
  private final Backups backups;
  private final Clock clock;
  private final ReentrantLock making = new ReentrantLock();
  private final Map<String, Reading> readAgain = new ConcurrentHashMap<>();
  private volatile @Nullable Failure failure;

  ServerBackups(DataSource database, Environment environment, Clock clock) {
    this.database = database;
    this.settings = BackupSettings.of(environment);
    this.backups = settings.backups();
    this.clock = clock;
  }

  /**
   * How things stand.
   *
   * @throws Refusal if the folder cannot be listed
   */
  public Standing standing() {
    try (Connection connection = database.getConnection()) {
      return new Standing(
          isFile(connection) ? null : connection.getMetaData().getDatabaseProductName(),
          settings.folder(),
          settings.every(),
          settings.keep(),
          kept(),
          failure);
    } catch (IOException | SQLException unreadable) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", words(unreadable));
    }
  }

  private List<Kept> kept() throws IOException {
    return backups.all().stream().map(this::kept).toList();
  }

  private Kept kept(Path backup) {
    String name = backup.getFileName().toString();
    Instant madeAt = Backups.madeAt(backup);
    Reading reading = readAgain.getOrDefault(name, new Reading(madeAt, null));
    return new Kept(name, madeAt, backup.toFile().length(), reading.at(), reading.damage());
  }

  /**
   * Makes one now. Where there are then more than are kept, the oldest goes.
   *
   * @throws Refusal if none could be made; nothing was changed then
   */
  public Kept make() {
    if (!making.tryLock()) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "One is being made at this moment.");
    }
    try (Connection connection = database.getConnection()) {
      if (!isFile(connection)) {
        throw Refusal.of(
            Refusal.Kind.CONFLICT,
            "",
            connection.getMetaData().getDatabaseProductName()
                + " is backed up by its own tools, and not from here.");
      }
      Path made = backups.make(connection, clock.instant());
      LOG.info("Backed up to {}", made);
      backups.keep(settings.keep());
      failure = null;
      return kept(made);
    } catch (IOException | SQLException failed) {
      LOG.error("No backup could be made", failed);
      failure = new Failure(clock.instant(), words(failed));
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "No backup could be made: " + words(failed));
    } finally {
      making.unlock();
    }
  }

  /**
   * Reads one to its end once more, for a disk may lose what was good on it.
   *
   * @throws NotThere if there is no backup of this name
   */
  public Kept read(String name) {
    try {
      Path backup =
          backups.all().stream()
              .filter(one -> one.getFileName().toString().equals(name))
              .findFirst()
              .orElseThrow(() -> new NotThere("backup"));
      Instant now = clock.instant();
      try {
        backups.read(backup);
        readAgain.put(name, new Reading(now, null));
      } catch (IOException damaged) {
        LOG.error("A backup is not good any more", damaged);
        readAgain.put(name, new Reading(now, words(damaged)));
      }
      return kept(backup);
    } catch (IOException unreadable) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", words(unreadable));
    }
  }

  /** Makes one if the newest is older than one should be; a failure is kept, not thrown. */
  void makeIfDue() {
    try {
      List<Path> all = backups.all();
      if (!settings.every().isZero()
          && standing().database() == null
          && (all.isEmpty()
              || Duration.between(Backups.madeAt(all.get(0)), clock.instant())
                      .compareTo(settings.every())
                  >= 0)) {
        make();
      }
    } catch (IOException unreadable) {
      LOG.error("The backups cannot be listed; the next try is in ten minutes", unreadable);
      failure = new Failure(clock.instant(), words(unreadable));
    } catch (Refusal refused) {
      LOG.warn("No backup was made; the next try is in ten minutes: {}", refused.getMessage());
    }
  }

  /** What the file system says of a file is but its name, mostly. */
  private static String words(Exception failed) {
    if (failed instanceof FileSystemException atFile) {
      String file = atFile.getFile();
      return file != null && Files.exists(Path.of(file))
          ? file + " cannot be written or read."
          : file + " is not there, or may not be reached.";
    }
    return String.valueOf(failed.getMessage()).split("; SQL statement", 2)[0];
  }

  static boolean isFile(Connection connection) throws SQLException {
    return connection.getMetaData().getURL().startsWith("jdbc:h2:file:");
  }
}
