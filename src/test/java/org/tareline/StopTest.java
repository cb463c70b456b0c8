package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.ConnectException;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.Patience;
import org.tareline.testing.ServerProcess;

/** A server on its embedded database that is told to stop (SIGTERM). */
@Tag("process")
class StopTest {

  private static final String GO_ON = "HTTP/1.1 100 \r\n\r\n";
  private static final String BODY = "{\"code\":\"SLOW\",\"name\":\"Peg\"}";

  @TempDir private Path folder;

  @Test
  void what_is_on_its_way_is_answered_and_nothing_new_is_begun() throws Exception {
    try (ServerProcess server = new ServerProcess(folder, Map.of())) {
      server.start();
      server.awaitReady();
      server.api().get("/parts").expect(200);
      int logged = server.logged().length();
      int port = URI.create(server.address()).getPort();
      try (Socket slow = new Socket("127.0.0.1", port)) {
        slow.setSoTimeout((int) Patience.LONG.toMillis());
        OutputStream to = slow.getOutputStream();
        InputStream from = slow.getInputStream();
        to.write(head().getBytes(StandardCharsets.US_ASCII));
        to.flush();
        // The server has begun with it when it asks for the body (RFC 9110, 10.1.1).
        assertThat(new String(from.readNBytes(GO_ON.length()), StandardCharsets.US_ASCII))
            .isEqualTo(GO_ON);
        to.write(BODY.substring(0, 10).getBytes(StandardCharsets.US_ASCII));
        to.flush();

        server.handle().destroy();
        Patience.until(() -> refused(port));
        // By itself H2 is closed within a second of the signal.
        Thread.sleep(2_000);
        to.write(BODY.substring(10).getBytes(StandardCharsets.US_ASCII));
        to.flush();

        assertThat(new String(from.readAllBytes(), StandardCharsets.UTF_8))
            .startsWith("HTTP/1.1 201")
            .contains("\"SLOW\"");
      }
      server.handle().onExit().get(Patience.LONG.toSeconds(), TimeUnit.SECONDS);
      assertThat(server.logged().substring(logged)).doesNotContain("WARN", "ERROR");
    }
  }

  private static String head() {
    String account = ServerProcess.OWNER + ':' + ServerProcess.PASSWORD;
    return "POST /api/v1/parts HTTP/1.1\r\nHost: localhost\r\nAuthorization: Basic "
        + Base64.getEncoder().encodeToString(account.getBytes(StandardCharsets.US_ASCII))
        + "\r\nConnection: close\r\nExpect: 100-continue\r\nContent-Type: application/json\r\nContent-Length: "
        + BODY.length()
        + "\r\n\r\n";
  }

  private static boolean refused(int port) {
    try (Socket asked = new Socket("127.0.0.1", port)) {
      return !asked.isConnected();
    } catch (ConnectException refused) {
      return true;
    } catch (IOException broken) {
      return false;
    }
  }
}
