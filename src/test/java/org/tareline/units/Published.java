package org.tareline.units;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Tables of values to test against: files whose first lines say what they are and whence. */
final class Published {

  private static final Pattern ESCAPED = Pattern.compile("\\\\(u[0-9a-f]{4}|n|r|t)");

  private Published() {}

  /** The rows of a table beside this class, their cells without the blanks around them. */
  static List<List<String>> rows(String file) {
    try (InputStream in = Published.class.getResourceAsStream(file)) {
      String table =
          new String(Objects.requireNonNull(in, file).readAllBytes(), StandardCharsets.UTF_8);
      if (!table.startsWith("# ")) {
        throw new IllegalStateException(file + " does not say what it is");
      }
      return table
          .lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> Arrays.stream(line.split("\\|", -1)).map(c -> unescaped(c.strip())).toList())
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String unescaped(String cell) {
    return ESCAPED
        .matcher(cell)
        .replaceAll(
            found ->
                switch (found.group(1).charAt(0)) {
                  case 'n' -> "\n";
                  case 'r' -> "\r";
                  case 't' -> "\t";
                  default ->
                      Matcher.quoteReplacement(
                          Character.toString(Integer.parseInt(found.group(1).substring(1), 16)));
                });
  }

  /** The kind of a word such as {@code mass per area}. */
  static Kind kind(String word) {
    return Arrays.stream(Kind.values())
        .filter(kind -> kind.word().equals(word))
        .findFirst()
        .orElseThrow();
  }
}
