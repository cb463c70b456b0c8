package org.tareline.exchange;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.units.Percent;
import org.tareline.units.UnreadableQuantity;

/**
 * A column of a table of a ledger, and how its values stand in the cells of a file: text after
 * {@link SafeCell}, figures as exact decimals with a point, instants in UTC (ISO 8601).
 *
 * @param column in the database
 * @param heading in the file; of an exact quantity with its UCUM code in brackets
 * @param of the table that a reference is to; else null
 * @param words that may stand there; any text where empty
 * @param reader of a text that is read each time that it is used, and is not taken in where it does
 *     not read; else null
 */
record Field(
    String column,
    String heading,
    Kind kind,
    @Nullable String of,
    Set<String> words,
    @Nullable Consumer<String> reader) {

  /** What stands in a column. */
  enum Kind {
    TEXT,
    /** As it was typed, of an exact value that stands beside it. */
    TYPED,
    PERCENT,
    CODE,
    UUID,
    WHOLE,
    REAL,
    DECIMAL,
    /** Whole nanograms, written in grams. */
    MASS,
    /** Whole nanometres, written in millimetres. */
    LENGTH,
    YES_NO,
    INSTANT,
    DAY,
    /** A thing of another table, by its code or, where it has none, by its id. */
    REFERENCE,
    /** A thing of whatever kind the column before says. */
    SUBJECT,
    /** Who did it, by name. */
    PERSON,
    /** A state of a thing as JSON, in which other things stand by their ids. */
    STATE
  }

  /** Why a cell cannot be taken in, as a sentence. */
  static final class Unreadable extends RuntimeException {

    Unreadable(String reason) {
      super(reason, null, false, false);
    }
  }

  /** Digits behind the point between what is stored and what is written. */
  private static final int NANOGRAMS_IN_A_GRAM = 9;

  private static final int NANOMETRES_IN_A_MILLIMETRE = 6;
  private static final int MOST_DIGITS = 60;
  private static final Set<String> STAMPS =
      Set.of("created_at", "entered_at", "received_at", "made_at", "voided_at");

  /** Whether the value in the database is not what stands in the cell, but the id of a thing. */
  boolean pointsElsewhere() {
    return kind == Kind.REFERENCE || kind == Kind.SUBJECT || kind == Kind.PERSON;
  }

  /** Whether it says who entered a row, or when: what a file made by hand may leave out. */
  boolean isStamp() {
    return kind == Kind.PERSON || STAMPS.contains(column);
  }

  /**
   * The cell of a value.
   *
   * @param value as {@link #read} gives it; null where there is none
   */
  String write(@Nullable Object value) {
    if (value == null) {
      return "";
    }
    return switch (kind) {
      case MASS -> plain(BigDecimal.valueOf((long) value, NANOGRAMS_IN_A_GRAM));
      case LENGTH -> plain(BigDecimal.valueOf((long) value, NANOMETRES_IN_A_MILLIMETRE));
      case DECIMAL -> plain((BigDecimal) value);
      case YES_NO -> (boolean) value ? "yes" : "no";
      case INSTANT -> ((OffsetDateTime) value).toInstant().toString();
      case WHOLE, REAL, UUID, DAY -> value.toString();
      case TEXT, TYPED, PERCENT, CODE, REFERENCE, SUBJECT, PERSON, STATE ->
          SafeCell.write(value.toString());
    };
  }

  private static String plain(BigDecimal number) {
    return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
  }

  /**
   * The value in a cell; of a thing elsewhere the text that names it.
   *
   * @return null where nothing stands there
   * @throws Unreadable if it is nothing of the kind
   */
  @Nullable Object read(String cell) {
    if (cell.isEmpty()) {
      return null;
    }
    try {
      return switch (kind) {
        case MASS -> whole(cell, NANOGRAMS_IN_A_GRAM, "g");
        case LENGTH -> whole(cell, NANOMETRES_IN_A_MILLIMETRE, "mm");
        case WHOLE -> whole(cell);
        case DECIMAL -> decimal(cell);
        case REAL -> finite(cell);
        case YES_NO -> yesOrNo(cell);
        case UUID -> uuid(cell);
        case INSTANT -> instant(cell);
        case DAY -> LocalDate.parse(cell.strip());
        case TEXT, TYPED, REFERENCE, SUBJECT, STATE -> text(cell);
        case PERSON -> person(text(cell));
        case PERCENT -> percent(text(cell));
        case CODE -> code(text(cell));
      };
    } catch (DateTimeException | IllegalArgumentException | ArithmeticException unreadable) {
      throw new Unreadable(wanted() + "; read " + Faults.shortened(cell) + ".");
    }
  }

  private String wanted() {
    return switch (kind) {
      case MASS -> "Give the mass in g as a decimal with a point, to the nanogram, such as 381.5";
      case LENGTH ->
          "Give the length in mm as a decimal with a point, to the nanometre, such as 4.2";
      case WHOLE -> "Give a whole number";
      case DECIMAL, REAL -> "Give a number with a point, such as 54.25";
      case YES_NO -> "Say yes or no";
      case UUID -> "Give an id, such as 3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b60";
      case INSTANT -> "Give the time as 2027-04-11T17:30:00Z";
      case DAY -> "Give the day as 2027-04-11";
      default -> "That cannot be read here";
    };
  }

  private static Object whole(String cell, int digits, String unit) {
    return decimal(cell).movePointRight(digits).longValueExact();
  }

  private static Object whole(String cell) {
    return Integer.parseInt(cell.strip());
  }

  private static BigDecimal decimal(String cell) {
    String digits = cell.strip();
    if (digits.length() > MOST_DIGITS || !digits.matches("-?[0-9]+(\\.[0-9]+)?")) {
      throw new NumberFormatException(digits);
    }
    return new BigDecimal(digits);
  }

  private static Object finite(String cell) {
    double number = Double.parseDouble(cell.strip());
    if (!Double.isFinite(number)) {
      throw new NumberFormatException(cell);
    }
    return number;
  }

  private static Object yesOrNo(String cell) {
    return switch (cell.strip()) {
      case "yes" -> true;
      case "no" -> false;
      default -> throw new IllegalArgumentException(cell);
    };
  }

  private static Object uuid(String cell) {
    String text = cell.strip();
    // Java reads shortened groups as well, and would write them back longer.
    UUID read = java.util.UUID.fromString(text);
    if (!read.toString().equalsIgnoreCase(text)) {
      throw new IllegalArgumentException(cell);
    }
    return read;
  }

  private static Object instant(String cell) {
    Instant read = OffsetDateTime.parse(cell.strip()).toInstant();
    if (!read.equals(read.truncatedTo(ChronoUnit.MICROS))
        || read.isBefore(Instant.parse("1900-01-01T00:00:00Z"))
        || read.isAfter(Instant.parse("2200-01-01T00:00:00Z"))) {
      throw new DateTimeException("out of range");
    }
    return read.atOffset(ZoneOffset.UTC);
  }

  private String text(String cell) {
    String text = SafeCell.read(cell);
    if (text.chars()
        .anyMatch(c -> Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t')) {
      throw new Unreadable("Leave control characters out.");
    }
    if (!words.isEmpty() && !words.contains(text)) {
      throw new Unreadable(
          "Say "
              + (words.size() == 1 ? "" : "one of ")
              + String.join(", ", words.stream().sorted().toList())
              + "; read "
              + Faults.shortened(text)
              + ".");
    }
    if (reader != null) {
      try {
        reader.accept(text);
      } catch (UnreadableQuantity unreadable) {
        throw new Unreadable(String.valueOf(unreadable.getMessage()));
      }
    }
    return text;
  }

  private static Object person(String name) {
    if (name.isBlank() || name.length() > 100) {
      throw new Unreadable("Give a name of 1 to 100 characters.");
    }
    return name;
  }

  private static Object percent(String text) {
    try {
      if (Percent.parse(text).fraction().compareTo(BigDecimal.TEN) > 0) {
        throw new Unreadable("Give a percentage up to 1000 %; read " + text + ".");
      }
      return text;
    } catch (UnreadableQuantity unreadable) {
      throw new Unreadable(String.valueOf(unreadable.getMessage()));
    }
  }

  private static Object code(String text) {
    Faults faults = new Faults();
    String code = Codes.read(faults, "code", text);
    if (!faults.none()) {
      throw new Unreadable(
          String.join(" ", faults.found().stream().map(Refusal.Fault::message).toList()));
    }
    return code;
  }
}
