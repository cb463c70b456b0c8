package org.tareline.testing;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpRequest;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.TarelineApplication;

/** A server in a process of its own, as it ships, to be killed and started again. */
public final class ServerProcess implements AutoCloseable {

  /** Whose account is there when it has started. */
  public static final String OWNER = "Ada";

  public static final String PASSWORD = "twelve letters";

  private final Map<String, String> settings;
  private final Path folder;
  private final int port;
  private @Nullable Process process;

  /**
   * A server that is not started yet.
   *
   * @param folder for its log and, where the settings name no other database, its H2 file
   * @param settings as variables of its environment
   */
  public ServerProcess(Path folder, Map<String, String> settings) {
    this.folder = folder;
    port = FreePort.next();
    this.settings = new HashMap<>(settings);
    this.settings.put("TARELINE_DATA_DIR", folder.toString());
    this.settings.put("TARELINE_FIRST_OWNER_NAME", OWNER);
    this.settings.put("TARELINE_FIRST_OWNER_PASSWORD", PASSWORD);
    // These write as fast as they can.
    this.settings.put("TARELINE_CALLS_PER_MINUTE", "1000000");
    this.settings.put("SERVER_PORT", String.valueOf(port));
  }

  /** Starts it, without waiting until it answers. */
  public void start() throws IOException {
    start(TarelineApplication.class, "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx256m");
  }

  /** The same by another main class and with other options of the virtual machine. */
  public void start(Class<?> main, String... options) throws IOException {
    List<String> words = new ArrayList<>();
    words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    words.addAll(List.of(options));
    words.addAll(List.of("-cp", System.getProperty("java.class.path"), main.getName()));
    ProcessBuilder command = new ProcessBuilder(words);
    command.environment().keySet().removeIf(name -> name.startsWith("SPRING_"));
    command.environment().putAll(settings);
    process =
        command
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(log().toFile()))
            .start();
  }

  private Path log() {
    return folder.resolve("log-" + port);
  }

  /** What it has logged since it was first started. */
  public String logged() throws IOException {
    return Files.readString(log());
  }

  /** Waits until it is ready to be asked. */
  public void awaitReady() throws IOException, InterruptedException {
    long begun = System.nanoTime();
    while (!ready()) {
      if (process == null
          || !process.isAlive()
          || System.nanoTime() - begun > Patience.LONG.toNanos()) {
        throw new AssertionError("The server did not start: " + logged());
      }
      Thread.sleep(50);
    }
  }

  private boolean ready() {
    try {
      return Answer.to(
                  HttpRequest.newBuilder(URI.create(address() + "/actuator/health/readiness"))
                      .timeout(Patience.LONG)
                      .build())
              .status()
          == 200;
    } catch (AssertionError notYet) {
      return false;
    }
  }

  /** Kills it with no chance to tidy up (SIGKILL). */
  public void kill() throws InterruptedException {
    if (process != null) {
      process.destroyForcibly().waitFor();
    }
  }

  @Override
  public void close() {
    try {
      kill();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * The process itself.
   *
   * @throws IllegalStateException if it was not started
   */
  public ProcessHandle handle() {
    if (process == null) {
      throw new IllegalStateException("It was not started");
    }
    return process.toHandle();
  }

  public String address() {
    return "http://127.0.0.1:" + port;
  }

  /** The API as the owner sees it. */
  public Api api() {
    return Api.at(address()).signedInAs(OWNER, PASSWORD);
  }

  /** The pages as a stranger with a new browser sees them. */
  public Pages pages() {
    return new Pages(address());
  }
}
