package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;
import org.springframework.util.unit.DataSize;
import org.tareline.site.Refusal;

/** Keeps what was sent in a file of its own while it is read, up to the limit of the server. */
@Component
public class ReceivedFile {

  private final DataSize limit;

  ReceivedFile(@Value("${tareline.import.limit}") DataSize limit) {
    this.limit = limit;
  }

  /**
   * Keeps it; the caller deletes it.
   *
   * @throws Refusal if there is more than the limit
   */
  public Path keep(InputStream sent) throws IOException {
    Path kept = Files.createTempFile("tareline-", ".zip");
    try (OutputStream to = Files.newOutputStream(kept)) {
      byte[] buffer = new byte[1 << 16];
      long left = limit.toBytes();
      for (int read = sent.read(buffer); read >= 0; read = sent.read(buffer)) {
        left -= read;
        if (left < 0) {
          throw Refusal.of(
              Refusal.Kind.TOO_LARGE, "file", "The file is larger than " + words() + ".");
        }
        to.write(buffer, 0, read);
      }
      return kept;
    } catch (IOException | RuntimeException failed) {
      Files.deleteIfExists(kept);
      throw failed;
    }
  }

  /** The limit, as a page says it. */
  public String words() {
    return limit.toMegabytes() > 0 ? limit.toMegabytes() + " MB" : limit.toBytes() + " bytes";
  }
}
