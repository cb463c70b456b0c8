package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;
import org.tareline.site.Sha256;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * A zip that somebody sent. Nothing in it is trusted: not its names, of which only those of a
 * ledger's files are taken and none as a path, and not the sizes it gives, for what comes out is
 * counted as it comes.
 */
final class LedgerZip implements LedgerFiles, AutoCloseable {

  /** Unpacked bytes for one byte of the zip, beyond which it is made to burst. */
  private static final int MOST_RATIO = 100;

  /** A small zip of many alike rows may well be packed tighter. */
  private static final long FREE_OF_RATIO = 16L << 20;

  private static final int MOST_OF_A_MANIFEST = 1 << 20;

  private final ZipFile zip;
  private final long packed;
  private final Problems troubles = new Problems();
  private final Map<String, Long> rows = new HashMap<>();
  private final Map<String, ZipEntry> entries = new HashMap<>();

  private LedgerZip(ZipFile zip, long packed) {
    this.zip = zip;
    this.packed = packed;
  }

  /**
   * Opens a zip and reads it through once, before anything is made of it.
   *
   * @throws IOException if it is no zip
   */
  static LedgerZip open(Path file, JsonMapper json) throws IOException {
    LedgerZip opened =
        new LedgerZip(new ZipFile(file.toFile(), StandardCharsets.UTF_8), Files.size(file));
    opened.look(json);
    return opened;
  }

  /** What is wrong with it as a zip of a ledger; where there is anything, no row is to be read. */
  Problems troubles() {
    return troubles;
  }

  /** How many rows the manifest gives a file; null where it gives none. */
  @Override
  public @Nullable Long rowsOf(String file) {
    return rows.get(file);
  }

  /** How many rows the manifest gives in all. */
  long rowsInAll() {
    return rows.values().stream().mapToLong(Long::longValue).sum();
  }

  @Override
  public @Nullable InputStream read(String file) throws IOException {
    ZipEntry entry = entries.get(file);
    return entry == null ? null : zip.getInputStream(entry);
  }

  private void look(JsonMapper json) {
    Set<String> known =
        LedgerTables.ALL.stream().map(Table::file).collect(Collectors.toUnmodifiableSet());
    for (ZipEntry entry : Collections.list(zip.entries())) {
      String name = entry.getName();
      if (!known.contains(name) && !name.equals(Manifest.FILE)) {
        trouble(
            name,
            name.contains("..") || name.matches("[/\\\\].*|[A-Za-z]:.*|.*[/\\\\].*")
                ? "A file with a path in its name is not taken: put the files into the zip without folders."
                : "There is no file of this name in a ledger: take it out of the zip.");
      } else if (entries.put(name, entry) != null) {
        trouble(name, "The zip has this file twice.");
      }
      if (troubles.count() > known.size()) {
        return;
      }
    }
    if (troubles.none() && entries.isEmpty()) {
      trouble(Manifest.FILE, "The zip is empty.");
    }
    if (troubles.none()) {
      Map<String, String> digests = digests();
      if (troubles.none() && entries.containsKey(Manifest.FILE)) {
        compare(json, digests);
      }
    }
  }

  private void trouble(String file, String reason) {
    troubles.note(Faults.shortened(file), 1, "", reason);
  }

  private Map<String, String> digests() {
    Map<String, String> digests = new HashMap<>();
    long allowed = Math.max(FREE_OF_RATIO, Math.multiplyExact(packed, (long) MOST_RATIO));
    byte[] buffer = new byte[1 << 16];
    for (Map.Entry<String, ZipEntry> each : entries.entrySet()) {
      MessageDigest digest = Sha256.begun();
      try (InputStream bytes = zip.getInputStream(each.getValue())) {
        for (int read = bytes.read(buffer); read >= 0; read = bytes.read(buffer)) {
          allowed -= read;
          if (allowed < 0) {
            trouble(
                each.getKey(),
                "Unpacked, the zip is more than "
                    + MOST_RATIO
                    + " times as large as it is: such a one is not taken.");
            return digests;
          }
          digest.update(buffer, 0, read);
        }
        digests.put(each.getKey(), Sha256.hex(digest));
      } catch (IOException damaged) {
        trouble(each.getKey(), "The file cannot be unpacked: the zip is damaged.");
      }
    }
    return digests;
  }

  private void compare(JsonMapper json, Map<String, String> digests) {
    Manifest manifest;
    try (InputStream bytes = zip.getInputStream(entries.get(Manifest.FILE))) {
      manifest = json.readValue(bytes.readNBytes(MOST_OF_A_MANIFEST), Manifest.class);
    } catch (IOException | JacksonException unreadable) {
      trouble(Manifest.FILE, "The manifest is not the JSON that is expected here.");
      return;
    }
    if (!Manifest.FORMAT.equals(manifest.format()) || manifest.version() != Manifest.VERSION) {
      trouble(
          Manifest.FILE,
          "It has to say format \""
              + Manifest.FORMAT
              + "\" and version "
              + Manifest.VERSION
              + "; a later version takes a later Tareline.");
      return;
    }
    for (Manifest.Entry entry :
        manifest.files() == null ? List.<Manifest.Entry>of() : manifest.files()) {
      String digest = digests.get(entry.file());
      if (digest == null) {
        trouble(entry.file(), "The manifest names this file, and it is not in the zip.");
      } else if (!digest.equals(entry.sha256())) {
        trouble(
            entry.file(),
            "It is not the file that was exported: its SHA-256 is not the manifest's. Where it was changed on purpose, "
                + "take "
                + Manifest.FILE
                + " out of the zip.");
      }
      rows.put(entry.file(), entry.rows());
    }
    for (String file : entries.keySet()) {
      if (!rows.containsKey(file) && !file.equals(Manifest.FILE)) {
        trouble(file, "The manifest does not name this file.");
      }
    }
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }
}
