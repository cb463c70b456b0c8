package org.tareline.exchange;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/**
 * The backups of an embedded database, in a folder of their own. A backup gets its name only after
 * it was unpacked and read to its end, so that every one that has a name is good.
 */
final class Backups {

  private static final String DATABASE = "tareline";
  private static final String FILE = DATABASE + ".mv.db";
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private final Path data;
  private final Path folder;
  private final String user;
  private final String password;

  /**
   * @param data the folder of the database
   * @param folder that of its backups
   * @param user who opens the database
   */
  Backups(Path data, Path folder, String user, String password) {
    this.data = data;
    this.folder = folder;
    this.user = user;
    this.password = password;
  }

  /** The good ones, newest first. */
  List<Path> all() throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(file -> file.getFileName().toString().matches(DATABASE + "-\\d{8}T\\d{6}Z\\.zip"))
          .sorted(Comparator.comparing(Path::getFileName).reversed())
          .toList();
    }
  }

  /** When a backup was made. */
  static Instant madeAt(Path backup) {
    String name = backup.getFileName().toString();
    return STAMP.parse(
        name.substring(DATABASE.length() + 1, name.length() - ".zip".length()), Instant::from);
  }

  /**
   * Makes a backup of the database that a connection has open, while others go on writing to it:
   * what is in it is the database at one moment.
   *
   * @throws IOException if it could not be written, or could not be read back
   */
  Path make(Connection open, Instant now) throws IOException, SQLException {
    Files.createDirectories(folder);
    Path unnamed = folder.resolve(UUID.randomUUID() + ".part");
    try {
      try (Statement statement = open.createStatement()) {
        statement.execute("backup to '" + unnamed.toString().replace("'", "''") + "'");
      }
      read(unnamed);
      return Files.move(
          unnamed,
          folder.resolve(DATABASE + '-' + STAMP.format(now) + ".zip"),
          StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(unnamed);
    }
  }

  /**
   * Reads a backup to its end.
   *
   * @throws IOException if it is not good
   */
  void read(Path backup) throws IOException {
    delete(unpack(backup));
  }

  /** Deletes the oldest beyond so many. */
  void keep(int most) throws IOException {
    List<Path> all = all();
    for (Path old : all.subList(Math.min(most, all.size()), all.size())) {
      Files.delete(old);
    }
  }

  /**
   * Puts a backup in the place of the database, which is kept beside it under another name.
   *
   * @param named a file, the name of one in the folder, or {@code newest}
   * @return the database as it was before; nothing if there was none
   * @throws IOException if there is no such backup, it is not good, or a server has the database
   *     open; then nothing was changed
   */
  Optional<Path> restore(String named, Instant now) throws IOException {
    Path unpacked = unpack(find(named));
    Path file = data.resolve(FILE);
    try {
      Optional<Path> before = Optional.empty();
      Files.createDirectories(data);
      if (Files.exists(file)) {
        refuseIfOpen(file);
        before =
            Optional.of(
                Files.move(
                    file, data.resolve(DATABASE + "-before-" + STAMP.format(now) + ".mv.db")));
      }
      Files.move(unpacked.resolve(FILE), file);
      return before;
    } finally {
      delete(unpacked);
    }
  }

  private Path find(String named) throws IOException {
    if (named.equals("newest")) {
      return all().stream()
          .findFirst()
          .orElseThrow(() -> new IOException("There is no backup in " + folder + "."));
    }
    for (Path file : new Path[] {folder.resolve(named), Path.of(named)}) {
      if (Files.isRegularFile(file)) {
        return file;
      }
    }
    throw new IOException("There is no backup " + named + ", nor one of that name in " + folder);
  }

  private static void refuseIfOpen(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE);
        FileLock lock = channel.tryLock()) {
      if (lock == null) {
        throw new IOException("A server has " + file + " open: stop it first.");
      }
    } catch (OverlappingFileLockException openHere) {
      throw new IOException("This very program has " + file + " open.", openHere);
    }
  }

  /** Unpacks a backup beside the others and reads it to its end; the folder it was unpacked to. */
  private Path unpack(Path backup) throws IOException {
    Files.createDirectories(folder);
    Path unpacked = Files.createTempDirectory(folder, "reading-");
    try {
      boolean found = false;
      try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(backup))) {
        for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
          // By its one name and no other, whatever path the archive gives.
          if (entry.getName().equals(FILE)) {
            Files.copy(zip, unpacked.resolve(FILE));
            found = true;
          }
        }
      }
      if (!found) {
        throw new IOException(backup + " is no backup of a ledger: it holds no " + FILE + ".");
      }
      try (Connection connection =
          DriverManager.getConnection(
              "jdbc:h2:file:"
                  + unpacked.resolve(DATABASE).toAbsolutePath()
                  + ";IFEXISTS=TRUE;ACCESS_MODE_DATA=r;LAZY_QUERY_EXECUTION=1",
              user,
              password)) {
        readToItsEnd(connection);
      } catch (SQLException damaged) {
        throw new IOException(backup + " is damaged: " + damaged.getMessage(), damaged);
      }
      return unpacked;
    } catch (IOException bad) {
      delete(unpacked);
      throw bad;
    }
  }

  /**
   * Reads every row of every table, which the database answers with an error where a page of its
   * file is not what was written.
   *
   * @return how many rows there are
   */
  static long readToItsEnd(Connection connection) throws SQLException {
    List<String> tables = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet found =
            statement.executeQuery(
                "select table_name from information_schema.tables where table_schema = 'PUBLIC'")) {
      while (found.next()) {
        tables.add(found.getString(1));
      }
    }
    long rows = 0;
    for (String table : tables) {
      try (Statement statement = connection.createStatement();
          ResultSet found =
              statement.executeQuery("select * from \"" + table.replace("\"", "\"\"") + '"')) {
        while (found.next()) {
          rows++;
        }
      }
    }
    return rows;
  }

  private static void delete(Path folder) throws IOException {
    List<Path> within;
    try (Stream<Path> files = Files.walk(folder)) {
      within = files.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path file : within) {
      Files.delete(file);
    }
  }
}
