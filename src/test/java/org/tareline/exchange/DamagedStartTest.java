package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.TarelineApplication;
import org.tareline.testing.Api;
import org.tareline.testing.FreePort;
import org.tareline.testing.Patience;

/** The server as it ships, with its backups, and on a database that cannot be read. */
@Tag("process")
class DamagedStartTest {

  private static final String PASSWORD = "twelve letters";

  @TempDir private Path data;

  private record Ended(int status, String said) {}

  private ProcessBuilder command(String... arguments) {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xmx256m",
                "-cp",
                System.getProperty("java.class.path"),
                TarelineApplication.class.getName()));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.environment().keySet().removeIf(name -> name.startsWith("SPRING_"));
    builder.environment().put("TARELINE_DATA_DIR", data.toString());
    builder.environment().put("SERVER_PORT", "0");
    return builder;
  }

  private Ended run(String... arguments) throws IOException, InterruptedException {
    Path log = data.resolve("log");
    Process server = command(arguments).redirectOutput(log.toFile()).start();
    try {
      assertThat(server.waitFor(Patience.LONG.toSeconds(), TimeUnit.SECONDS))
          .as("it ends by itself")
          .isTrue();
      return new Ended(server.exitValue(), Files.readString(log));
    } finally {
      server.destroyForcibly().waitFor();
    }
  }

  @Test
  void a_damaged_database_is_refused_in_words_that_name_the_newest_good_backup_and_it_restores()
      throws Exception {
    try (Connection connection =
            DriverManager.getConnection("jdbc:h2:file:" + data.resolve("tareline"), "", "");
        Statement statement = connection.createStatement()) {
      statement.execute("create table reading as select x id from system_range(1, 100)");
      new Backups(data, data.resolve("backups"), "", "")
          .make(connection, Instant.parse("2027-04-11T06:00:00Z"));
    }
    Path file = data.resolve("tareline.mv.db");
    byte[] damaged =
        "not a database at all, and long enough".repeat(500).getBytes(StandardCharsets.UTF_8);
    Files.write(file, damaged);

    Ended refused = run();

    assertThat(refused.status()).isNotZero();
    assertThat(refused.said())
        .contains("is damaged, and nothing was written to it")
        .contains("tareline-20270411T060000Z.zip")
        .contains("--restore=newest");
    assertThat(file).hasBinaryContent(damaged);

    Ended restored = run("--restore=newest");

    assertThat(restored.status()).as(restored.said()).isZero();
    assertThat(restored.said()).contains("Restored newest into");
    try (Connection connection =
            DriverManager.getConnection("jdbc:h2:file:" + data.resolve("tareline"), "", "");
        Statement statement = connection.createStatement();
        var found = statement.executeQuery("select count(*) from reading")) {
      found.next();
      assertThat(found.getInt(1)).isEqualTo(100);
    }
  }

  @Test
  void a_server_as_it_ships_backs_itself_up_and_is_put_back() throws Exception {
    int port = FreePort.next();
    Process server =
        command(
                "--server.port=" + port,
                "--tareline.first-owner.name=Ada",
                "--tareline.first-owner.password=" + PASSWORD)
            .redirectOutput(data.resolve("log").toFile())
            .start();
    try {
      Api api = Api.at("http://127.0.0.1:" + port).signedInAs("Ada", PASSWORD);
      Patience.until(() -> answers(port) || !server.isAlive());
      assertThat(server.isAlive()).isTrue();
      api.post("/backups", Map.of()).expect(201);
      assertThat(api.get("/backups").expect(200).json().path("items")).hasSize(1);
    } finally {
      server.destroyForcibly().waitFor();
    }

    Ended restored = run("--restore=newest");

    assertThat(restored.status()).as(restored.said()).isZero();
    assertThat(restored.said()).contains("What was there before is kept as");
  }

  private static boolean answers(int port) {
    try (Socket there = new Socket("127.0.0.1", port)) {
      return there.isConnected();
    } catch (IOException notYet) {
      return false;
    }
  }

  @Test
  void a_restore_of_nothing_ends_with_an_error_and_words() throws Exception {
    Ended refused = run("--restore=newest");

    assertThat(refused.status()).isEqualTo(1);
    assertThat(refused.said()).contains("Nothing was restored. There is no backup in");
  }
}
