package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
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
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BackupsTest {

  private static final Instant FIRST = Instant.parse("2027-04-11T06:00:00Z");

  @TempDir private Path data;
  private Backups backups;

  @BeforeEach
  void set_up() {
    backups = new Backups(data, data.resolve("backups"), "sa", "");
  }

  private Connection open() throws SQLException {
    return DriverManager.getConnection(
        "jdbc:h2:file:" + data.resolve("tareline") + ";WRITE_DELAY=0", "sa", "");
  }

  private static void write(Connection connection, int from, int to) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(
          "create table if not exists reading (id int primary key, half int, words varchar)");
      for (int i = from; i < to; i++) {
        // Two rows in one transaction: a backup between them would not be of one moment.
        connection.setAutoCommit(false);
        statement.execute("insert into reading values (" + 2 * i + ", 1, repeat('weighed ', 50))");
        statement.execute(
            "insert into reading values (" + (2 * i + 1) + ", 2, repeat('weighed ', 50))");
        connection.commit();
        connection.setAutoCommit(true);
      }
    }
  }

  private long rows() throws SQLException {
    try (Connection connection = open();
        Statement statement = connection.createStatement();
        ResultSet found = statement.executeQuery("select count(*) from reading")) {
      found.next();
      return found.getLong(1);
    }
  }

  @Test
  void what_was_backed_up_comes_back_and_what_was_there_is_kept_beside_it() throws Exception {
    try (Connection connection = open()) {
      write(connection, 0, 50);
      Path made = backups.make(connection, FIRST);
      assertThat(backups.all()).containsExactly(made);
      assertThat(Backups.madeAt(made)).isEqualTo(FIRST);
      write(connection, 50, 60);
    }
    assertThat(rows()).isEqualTo(120);

    Path before = backups.restore("newest", FIRST.plusSeconds(60)).orElseThrow();

    assertThat(rows()).isEqualTo(100);
    assertThat(before).exists();
    Files.move(before, data.resolve("tareline.mv.db"), StandardCopyOption.REPLACE_EXISTING);
    assertThat(rows()).isEqualTo(120);
  }

  @Test
  void a_backup_made_while_others_write_is_of_one_moment() throws Exception {
    try (Connection connection = open()) {
      write(connection, 0, 200);
    }
    AtomicBoolean enough = new AtomicBoolean();
    AtomicInteger written = new AtomicInteger();
    Thread writer =
        new Thread(
            () -> {
              try (Connection connection = open()) {
                for (int i = 200; !enough.get(); i++) {
                  write(connection, i, i + 1);
                  written.incrementAndGet();
                }
              } catch (SQLException broken) {
                throw new AssertionError(broken);
              }
            });
    writer.start();
    try (Connection connection = open()) {
      for (int i = 0; i < 3; i++) {
        backups.make(connection, FIRST.plusSeconds(i));
      }
    } finally {
      enough.set(true);
      writer.join();
    }
    assertThat(written.get()).isPositive();

    backups.restore("newest", FIRST.plusSeconds(9));
    try (Connection connection = open();
        Statement statement = connection.createStatement();
        ResultSet halves =
            statement.executeQuery(
                "select count(*) filter (where half = 1), count(*) filter (where half = 2) from reading")) {
      halves.next();
      assertThat(halves.getLong(1)).isEqualTo(halves.getLong(2)).isGreaterThanOrEqualTo(200);
    }
  }

  @Test
  void so_many_are_kept_and_the_oldest_goes_first() throws Exception {
    try (Connection connection = open()) {
      write(connection, 0, 1);
      for (int i = 0; i < 5; i++) {
        backups.make(connection, FIRST.plusSeconds(i));
      }
    }
    backups.keep(2);

    assertThat(backups.all().stream().map(Backups::madeAt))
        .containsExactly(FIRST.plusSeconds(4), FIRST.plusSeconds(3));
    try (Stream<Path> left = Files.list(data.resolve("backups"))) {
      assertThat(left).hasSize(2);
    }
  }

  @Test
  void a_damaged_backup_is_refused_and_nothing_is_touched() throws Exception {
    try (Connection connection = open()) {
      write(connection, 0, 50);
      Path made = backups.make(connection, FIRST);
      byte[] bytes = Files.readAllBytes(made);
      for (int i = bytes.length / 2; i < bytes.length / 2 + 200; i++) {
        bytes[i] ^= 0x5a;
      }
      Files.write(made, bytes);
    }
    byte[] before = Files.readAllBytes(data.resolve("tareline.mv.db"));

    assertThatThrownBy(() -> backups.restore("newest", FIRST)).isInstanceOf(IOException.class);

    assertThat(data.resolve("tareline.mv.db")).hasBinaryContent(before);
    assertThat(rows()).isEqualTo(100);
  }

  @Test
  void what_is_no_backup_is_refused_in_words() throws Exception {
    Path stray = Files.writeString(data.resolve("stray.zip"), "not a zip");

    assertThatThrownBy(() -> backups.restore(stray.toString(), FIRST))
        .hasMessageContaining("is no backup");
    assertThatThrownBy(() -> backups.restore("newest", FIRST))
        .hasMessageContaining("There is no backup in");
    assertThatThrownBy(() -> backups.restore("tareline-1.zip", FIRST))
        .hasMessageContaining("There is no backup tareline-1.zip");
    assertThat(data.resolve("tareline.mv.db")).doesNotExist();
  }

  @Test
  void a_database_that_is_open_is_not_replaced() throws Exception {
    try (Connection connection = open()) {
      write(connection, 0, 1);
      backups.make(connection, FIRST);

      assertThatThrownBy(() -> backups.restore("newest", FIRST)).hasMessageContaining("open");

      write(connection, 1, 2);
    }
    assertThat(rows()).isEqualTo(4);
  }

  @Test
  void reading_to_its_end_finds_a_page_that_is_not_what_was_written() throws Exception {
    try (Connection connection = open()) {
      write(connection, 0, 2_000);
      try (Statement statement = connection.createStatement()) {
        statement.execute("shutdown compact");
      }
    }
    Path file = data.resolve("tareline.mv.db");
    byte[] good = Files.readAllBytes(file);
    List<Integer> unnoticed = new ArrayList<>();
    int tried = 0;
    // Past the two headers, in the middle of the rows.
    for (int at = good.length / 4; at < good.length * 3 / 4; at += good.length / 16) {
      assertThat(new String(good, at, 4096, StandardCharsets.ISO_8859_1)).contains("weighed ");
      byte[] bad = good.clone();
      for (int i = at; i < at + 4096; i++) {
        bad[i] = 0;
      }
      Files.write(file, bad, StandardOpenOption.TRUNCATE_EXISTING);
      tried++;
      try (Connection connection = open()) {
        Backups.readToItsEnd(connection);
        unnoticed.add(at);
      } catch (SQLException damaged) {
        // as it should be
      }
    }
    assertThat(tried).isEqualTo(8);
    assertThat(unnoticed).isEmpty();
  }
}
