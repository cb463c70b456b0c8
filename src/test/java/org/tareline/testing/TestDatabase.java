package org.tareline.testing;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;
import org.testcontainers.utility.DockerImageName;

/**
 * An empty database. On H2 it is a file database of its own with the settings that ship; on
 * PostgreSQL a database of its own in one server, started once: in a container where an engine
 * answers, from the Maven binaries otherwise.
 */
public record TestDatabase(String url, String user, String password) {

  private static final boolean ON_POSTGRESQL =
      "postgresql".equals(System.getProperty("tareline.test.database"));
  private static final String PUBLIC_IMAGE = "postgres:17-alpine";
  private static final AtomicInteger MADE = new AtomicInteger();

  private static @Nullable PostgresServer server;
  private static @Nullable String whyNoServer;

  private record PostgresServer(String address, String user, String password) {}

  /** Whether the feature tests run on PostgreSQL in this run. */
  public static boolean onPostgresql() {
    return ON_POSTGRESQL;
  }

  /** Makes an empty database. */
  public static TestDatabase fresh() {
    if (!ON_POSTGRESQL) {
      Path folder =
          Path.of(
              "target",
              "test-databases",
              ProcessHandle.current().pid() + "-" + MADE.incrementAndGet());
      return onH2(folder.toAbsolutePath().resolve("tareline").toString());
    }
    return freshOnPostgresql()
        .orElseThrow(() -> new IllegalStateException("No PostgreSQL: " + whyNoServer));
  }

  /** The database in a file of H2, with the settings that ship. */
  public static TestDatabase onH2(String file) {
    return new TestDatabase(
        "jdbc:h2:file:" + file + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE", "sa", "");
  }

  /** Makes an empty database on PostgreSQL, whatever the feature tests run on. */
  public static Optional<TestDatabase> freshOnPostgresql() {
    PostgresServer running = postgresql();
    if (running == null) {
      return Optional.empty();
    }
    String name = "feature_" + MADE.incrementAndGet();
    try (Connection connection =
            DriverManager.getConnection(
                running.address() + "postgres", running.user(), running.password());
        var statement = connection.createStatement()) {
      statement.execute("create database " + name);
    } catch (SQLException refused) {
      throw new IllegalStateException("PostgreSQL would not make a database", refused);
    }
    return Optional.of(
        new TestDatabase(running.address() + name, running.user(), running.password()));
  }

  /** Why there is no database to test on, if so. */
  static Optional<String> whyNone() {
    return ON_POSTGRESQL && postgresql() == null
        ? Optional.ofNullable(whyNoServer)
        : Optional.empty();
  }

  /** What a server needs to be told to work on this database. */
  Map<String, String> properties() {
    return Map.of(
        // Not among the backups of whoever runs the tests, where old ones would go for new ones.
        "tareline.backup.folder",
            "target/test-databases/backups-" + Integer.toHexString(url.hashCode()),
        "spring.datasource.url", url,
        "spring.datasource.username", user,
        "spring.datasource.password", password);
  }

  private static synchronized @Nullable PostgresServer postgresql() {
    if (server == null && whyNoServer == null) {
      try {
        server = inContainer().orElseGet(TestDatabase::fromBinaries);
      } catch (RuntimeException | LinkageError cannotStart) {
        whyNoServer = "PostgreSQL does not start here (" + cannotStart + ")";
      }
    }
    return server;
  }

  private static Optional<PostgresServer> inContainer() {
    String named = System.getenv("TEST_POSTGRES_IMAGE");
    String image = named == null || named.isBlank() ? PUBLIC_IMAGE : named;
    try {
      if (!DockerClientFactory.instance().isDockerAvailable()) {
        return Optional.empty();
      }
      // Stopped with the JVM.
      @SuppressWarnings("resource")
      PostgreSQLContainer container =
          new PostgreSQLContainer(
              DockerImageName.parse(image).asCompatibleSubstituteFor("postgres"));
      container.start();
      Runtime.getRuntime().addShutdownHook(new Thread(container::stop));
      say("the container image " + image);
      return Optional.of(
          new PostgresServer(
              "jdbc:postgresql://"
                  + container.getHost()
                  + ":"
                  + container.getMappedPort(5432)
                  + "/",
              container.getUsername(),
              container.getPassword()));
    } catch (RuntimeException noContainer) {
      System.out.println("No PostgreSQL from a container: " + noContainer.getMessage());
      return Optional.empty();
    }
  }

  private static PostgresServer fromBinaries() {
    try {
      // Stops itself with the JVM.
      EmbeddedPostgres postgres =
          EmbeddedPostgres.builder()
              .setPort(FreePort.next())
              .setPGStartupWait(Patience.LONG)
              .start();
      say("the embedded binaries");
      return new PostgresServer(
          "jdbc:postgresql://localhost:" + postgres.getPort() + "/", "postgres", "postgres");
    } catch (IOException cannotStart) {
      throw new IllegalStateException(cannotStart);
    }
  }

  /** Read by whoever must know afterwards which PostgreSQL it was. */
  private static void say(String which) {
    System.out.println("Feature tests run on PostgreSQL from " + which);
  }
}
