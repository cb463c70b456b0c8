package org.tareline.exchange;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.apache.commons.csv.CSVFormat;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Refusal;

/**
 * A table of somebody's own, as CSV with a line of headings: parted by commas, semicolons or tabs,
 * whichever its headings have most of.
 *
 * @param headings of its columns, as they are
 */
record PlainTable(List<String> headings, List<Line> lines) {

  /** The most characters that are taken in at once. */
  static final int LONGEST = 1_000_000;

  static final int MOST_LINES = 5_000;
  static final int MOST_COLUMNS = 40;

  /** A row, and the line it begins at. */
  record Line(int number, List<String> cells) {

    String cell(int at) {
      return at < cells.size() ? cells.get(at).strip() : "";
    }
  }

  /**
   * Reads it.
   *
   * @throws Refusal if it is no such table, or larger than is taken in at once
   */
  static PlainTable read(@Nullable String text) {
    String whole = text == null ? "" : text.strip();
    if (whole.isEmpty()) {
      throw Refusal.badInput("text", "Paste a table with a line of headings, or choose a file.");
    }
    if (whole.length() > LONGEST) {
      throw tooLong("text");
    }
    List<Line> all = new ArrayList<>();
    CSVFormat format = CSVFormat.RFC4180.builder().setDelimiter(delimiter(whole)).get();
    CsvRows.@Nullable Broken broken;
    try {
      broken =
          CsvRows.read(
              new ByteArrayInputStream(whole.getBytes(StandardCharsets.UTF_8)),
              format,
              (line, cells) -> all.add(new Line(line, cells)));
    } catch (IOException cannotBe) {
      throw new UncheckedIOException(cannotBe);
    }
    if (broken != null) {
      throw Refusal.badInput("text", "Line " + broken.line() + ": " + broken.reason());
    }
    List<String> headings = all.get(0).cells().stream().map(String::strip).toList();
    if (all.size() < 2) {
      throw Refusal.badInput("text", "Under the line of headings there has to be a row.");
    }
    if (all.size() - 1 > MOST_LINES || headings.size() > MOST_COLUMNS) {
      throw Refusal.badInput(
          "text",
          "Take it in in parts: "
              + MOST_LINES
              + " rows of "
              + MOST_COLUMNS
              + " columns fit at once.");
    }
    return new PlainTable(headings, List.copyOf(all.subList(1, all.size())));
  }

  static Refusal tooLong(String field) {
    return Refusal.of(
        Refusal.Kind.TOO_LARGE,
        field,
        "Take it in in parts: " + LONGEST + " characters fit at once, and 4 MB of JSON.");
  }

  private static char delimiter(String text) {
    String first = text.lines().findFirst().orElse("").replaceAll("\"[^\"]*\"", "");
    char best = ',';
    for (char each : new char[] {';', '\t'}) {
      if (count(first, each) > count(first, best)) {
        best = each;
      }
    }
    return best;
  }

  private static long count(String text, char sought) {
    return text.chars().filter(c -> c == sought).count();
  }

  /** What a column says of a thing. */
  enum Says {
    CODE("code", "code", true, false),
    NAME("name", "name", true, false),
    SYSTEM("system", "system", true, false),
    OWNED("owned", "how many are owned", true, false),
    STATED("stated", "stated mass", true, false),
    STATED_TOLERANCE("tolerance", "tolerance of the stated mass", true, false),
    PART("part", "code of the part", false, true),
    READING("reading", "reading", false, true),
    SCALE("scale", "code of the scale", false, true),
    TOLERANCE("tolerance", "tolerance, where no scale is on record", false, true),
    TARE("tare", "tare", false, true),
    COUNT("count", "how many were on the pan", false, true),
    CONDITION("condition", "condition", false, true),
    WEIGHED_AT("weighed-at", "when it was weighed", false, true),
    NOTE("note", "note", true, true);

    private final String word;
    private final String words;
    private final boolean ofParts;
    private final boolean ofWeighings;

    Says(String word, String words, boolean ofParts, boolean ofWeighings) {
      this.word = word;
      this.words = words;
      this.ofParts = ofParts;
      this.ofWeighings = ofWeighings;
    }

    String word() {
      return word;
    }

    String words() {
      return words;
    }

    boolean isOf(Things things) {
      return things == Things.PARTS ? ofParts : ofWeighings;
    }

    /** Whether it is a mass, so that it may have a unit. */
    boolean isMass() {
      return this == STATED || this == READING || this == TARE;
    }

    static @Nullable Says of(Things things, String word) {
      for (Says says : values()) {
        if (says.isOf(things) && says.word.equals(word)) {
          return says;
        }
      }
      return null;
    }
  }

  /** What its rows are. */
  enum Things {
    PARTS,
    WEIGHINGS;

    String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    static Things of(@Nullable String word) {
      for (Things things : values()) {
        if (things.word().equals(word)) {
          return things;
        }
      }
      throw Refusal.badInput("things", "Say parts or weighings.");
    }
  }

  /** What a heading seems to say; nothing where it is not plain. */
  static String guess(Things things, String heading) {
    String plain =
        heading.replaceAll("[\\[(].*", "").strip().toLowerCase(Locale.ROOT).replace(' ', '-');
    String known =
        switch (plain) {
          case "mass", "weight" -> things == Things.PARTS ? "stated" : "reading";
          case "readings" -> "reading";
          case "date", "time", "when" -> "weighed-at";
          case "quantity" -> things == Things.PARTS ? "owned" : "count";
          case "notes" -> "note";
          case "code" -> things == Things.PARTS ? "code" : "part";
          default -> plain;
        };
    return Says.of(things, known) == null ? "" : known;
  }

  /** The unit that a heading has in brackets, as it stands there. */
  static String unitIn(String heading) {
    return Objects.requireNonNullElse(
        heading.matches(".*[\\[(].+[\\])]\\s*")
            ? heading.replaceAll("^[^\\[(]*[\\[(](.+)[\\])]\\s*$", "$1").strip()
            : "",
        "");
  }
}
