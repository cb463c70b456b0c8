package org.tareline.units;

import static org.tareline.units.UnreadableQuantity.quoted;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Reads one text from left to right, once, never going back further than a unit is long. The
 * grammar is told at {@link Quantity}.
 */
final class QuantityReader {

  /** The longest text of one quantity, in characters: beyond it nothing is looked at. */
  static final int LONGEST = 200;

  /** The longest list of quantities, in characters. */
  static final int LONGEST_LIST = 10_000;

  /** Kinds whose quantities are written in parts, such as {@code 4 ft 6 in}. */
  private static final Set<Kind> IN_PARTS = EnumSet.of(Kind.MASS, Kind.LENGTH, Kind.VOLUME);

  /** The fractions that have a character of their own, as numerator and denominator. */
  private static final Map<Character, String> FRACTIONS =
      Map.ofEntries(
          Map.entry('½', "1/2"),
          Map.entry('⅓', "1/3"),
          Map.entry('⅔', "2/3"),
          Map.entry('¼', "1/4"),
          Map.entry('¾', "3/4"),
          Map.entry('⅕', "1/5"),
          Map.entry('⅖', "2/5"),
          Map.entry('⅗', "3/5"),
          Map.entry('⅘', "4/5"),
          Map.entry('⅙', "1/6"),
          Map.entry('⅚', "5/6"),
          Map.entry('⅛', "1/8"),
          Map.entry('⅜', "3/8"),
          Map.entry('⅝', "5/8"),
          Map.entry('⅞', "7/8"));

  private static final char END = '\0';

  private final String text;
  private final @Nullable Kind kind;
  private final @Nullable Unit defaultUnit;
  private String example;
  private DecimalMark mark = DecimalMark.POINT;
  private int at;

  /** What parts one number from the next: a unit in a quantity, a semicolon in a list. */
  private String between = "a unit";

  /** Where the last quantity began without naming a unit of its own, or -1. */
  private int bareAt = -1;

  QuantityReader(String text, @Nullable Kind kind, @Nullable Unit defaultUnit) {
    this(text, kind, defaultUnit, (kind == null ? Kind.MASS : kind).example());
  }

  QuantityReader(String text, @Nullable Kind kind, @Nullable Unit defaultUnit, String example) {
    if (kind != null && defaultUnit != null && defaultUnit.kind() != kind) {
      throw new IllegalArgumentException(
          defaultUnit.symbol()
              + " is a unit of "
              + defaultUnit.kind().word()
              + " and cannot stand for "
              + kind.one());
    }
    this.text = text;
    this.kind = kind;
    this.defaultUnit = defaultUnit;
    this.example = example;
  }

  /** This, with the decimal mark that is known; else it is the point. */
  QuantityReader marked(DecimalMark known) {
    mark = known;
    return this;
  }

  /** The whole text as one quantity. */
  Quantity one() {
    limit(LONGEST);
    skipBlanksAndBreaks();
    Quantity quantity = quantity();
    end();
    return quantity;
  }

  /** The whole text as a number and a per cent sign. */
  Percent percent() {
    limit(LONGEST);
    skipBlanksAndBreaks();
    boolean negative = sign();
    Rational number = number();
    skipBlanks();
    if (here() != '%') {
      throw refuse(at, "a per cent sign is expected here");
    }
    at++;
    end();
    BigDecimal fraction = number.over(Rational.of("100")).decimal();
    if (fraction == null) {
      throw refuse(text.length(), "its digits never end; write it as a decimal");
    }
    if (negative || fraction.compareTo(Percent.MOST) > 0) {
      throw refuse(text.length(), "a percentage from 0 % to 1000 % is wanted");
    }
    return new Percent(fraction);
  }

  /** This, past a plus-minus sign if the text begins with one. */
  QuantityReader afterPlusMinus() {
    skipBlanksAndBreaks();
    if (here() == '±') {
      at++;
    }
    return this;
  }

  /** The whole text as a list. */
  List<Quantity> many() {
    limit(LONGEST_LIST);
    between = "a semicolon";
    List<Quantity> all = new ArrayList<>();
    int bare = 0;
    int firstBareAt = -1;
    skipBlanksAndBreaks();
    while (true) {
      all.add(quantity());
      if (bareAt >= 0 && bare++ == 0) {
        firstBareAt = bareAt;
      }
      boolean parted = skipBlanksAndBreaks();
      if (here() == ';' || here() == ',') {
        at++;
        parted = true;
        skipBlanksAndBreaks();
      } else if (at == text.length()) {
        break;
      }
      if (!parted) {
        throw refuse(at, "a semicolon or a comma with a space is expected between two readings");
      }
    }
    if (bare > 0 && bare < all.size()) {
      throw refuse(
          firstBareAt, "this one has no unit and others have; write it on each or on none");
    }
    return List.copyOf(all);
  }

  private Quantity quantity() {
    int start = at;
    int end;
    boolean negative = sign();
    Rational base = Rational.ZERO;
    Unit unit = null;
    List<String> notes = new ArrayList<>();
    bareAt = -1;
    do {
      Rational number = number();
      end = at;
      skipBlanks();
      int unitAt = at;
      Unit next = unit(notes);
      if (next == null) {
        if (unit != null || defaultUnit == null) {
          throw refuse(unitAt, "a unit is expected here");
        }
        next = defaultUnit;
        bareAt = start;
      } else {
        end = at;
        checkUnit(unit, next, unitAt);
      }
      base = base.plus(next.toBase(negative ? number.negated() : number));
      unit = next;
      skipBlanks();
      // After a unit a comma parts two readings; it does not begin another part.
    } while (bareAt < 0 && here() != ',' && startsNumber());
    at = end;
    return new Quantity(text.substring(start, end), unit, base, notes);
  }

  private void checkUnit(@Nullable Unit before, Unit unit, int unitAt) {
    Kind wanted = before == null ? kind : before.kind();
    if (wanted != null && unit.kind() != wanted) {
      throw refuse(
          unitAt,
          unit.symbol()
              + " is a unit of "
              + unit.kind().word()
              + " and "
              + wanted.one()
              + " is wanted");
    }
    example = wanted == null ? unit.kind().example() : example;
    if (before != null && !IN_PARTS.contains(unit.kind())) {
      throw refuse(unitAt, unit.kind().one() + " is written in one unit alone");
    }
    if (before != null && !before.isLargerThan(unit)) {
      throw refuse(unitAt, "parts run from larger to smaller units, each once");
    }
  }

  /** The longest spelling of a unit that starts here; null where the text or an item ends. */
  private @Nullable Unit unit(List<String> notes) {
    if (at == text.length() || isBreak(here()) || here() == ';' || here() == ',') {
      return null;
    }
    if (startsNumber() || isMinus(here())) {
      throw refuse(at, "one number follows another; write " + between + " between them");
    }
    int longest = Math.min(text.length(), at + Unit.LONGEST_SPELLING);
    for (int end = longest; end > at; end--) {
      if (!endsUnit(end)) {
        continue;
      }
      String spelling = text.substring(at, end);
      String why = Unit.ambiguity(spelling);
      if (why != null) {
        throw refuse(at, "which unit " + quoted(spelling) + " is cannot be told: " + why);
      }
      Unit unit = Unit.find(spelling);
      if (unit != null) {
        at = end;
        String note = Unit.note(spelling);
        if (note != null) {
          notes.add(note);
        }
        return unit;
      }
    }
    throw refuse(at, quoted(word()) + " is not a unit known here");
  }

  /** Whether a unit may end before this place: not inside a word, an exponent or a quotient. */
  private boolean endsUnit(int end) {
    char last = text.charAt(end - 1);
    if (isBlank(last)) {
      return false;
    }
    char next = end < text.length() ? text.charAt(end) : END;
    return isDigit(next)
        ? !isDigit(last) && last != '.' && last != '/' && last != '^'
        : !Character.isLetter(next) && "./^²³_[]".indexOf(next) < 0 || last == '\'' || last == '"';
  }

  private boolean sign() {
    if (isMinus(here())) {
      at++;
      return true;
    }
    return false;
  }

  private Rational number() {
    Rational fraction = fractionCharacter();
    if (fraction != null) {
      return fraction;
    }
    if (!startsNumber()) {
      throw refuse(at, "a number is expected here");
    }
    String whole = digits();
    // A comma before anything but a digit parts two readings, and is not the number's.
    if (here() == '.' || isMarkBeforeDigit()) {
      return decimal(whole);
    }
    Rational value = Rational.of(whole);
    if (isSlash(here())) {
      return value.over(denominator());
    }
    Rational mixed = fractionAfter();
    refuseExponentAndHyphen();
    return mixed == null ? value : value.plus(mixed);
  }

  private Rational decimal(String whole) {
    int markAt = at++;
    String decimals = digits();
    if (decimals.isEmpty()) {
      throw refuse(at, "a digit is expected after the point");
    }
    if (isMarkBeforeDigit()) {
      throw refuse(at, "a number has one decimal mark, and no marks between thousands");
    }
    // 0,125 and 1234,567 have no such second meaning: thousands are parted by threes from the left.
    if (whole.matches("[1-9][0-9]{0,2}") && decimals.length() == 3) {
      refuseOtherMark(markAt, whole, decimals);
    }
    refuseExponentAndHyphen();
    return Rational.of(new BigDecimal("0" + whole + "." + decimals));
  }

  /** Where either mark may be the decimal one, the first that thousands could be meant by is. */
  private void refuseOtherMark(int markAt, String whole, String decimals) {
    boolean comma = text.charAt(markAt) == ',';
    DecimalMark shown = comma ? DecimalMark.COMMA : DecimalMark.POINT;
    if (mark == DecimalMark.EITHER) {
      mark = shown;
    }
    if (mark != shown) {
      throw refuse(
          markAt,
          (comma ? "the comma" : "the point")
              + " may part thousands or decimals; write "
              + String.join("", whole, decimals, " or ", whole, comma ? "." : ",", decimals));
    }
  }

  /** The fraction of a mixed number, after a whole number: {@code ¼}, {@code 1/4}; or null. */
  private @Nullable Rational fractionAfter() {
    int before = at;
    skipBlanks();
    Rational fraction = fractionCharacter();
    if (fraction == null && at > before && isDigit(here())) {
      int start = at;
      Rational above = Rational.of(digits());
      if (isSlash(here())) {
        fraction = above.over(denominator());
        if (fraction.compareTo(Rational.of("1")) >= 0) {
          throw refuse(start, "a fraction after a whole number is less than one");
        }
      }
    }
    if (fraction == null) {
      at = before;
    }
    return fraction;
  }

  private @Nullable Rational fractionCharacter() {
    String fraction = FRACTIONS.get(here());
    if (fraction == null) {
      return null;
    }
    at++;
    return Rational.of(fraction);
  }

  private Rational denominator() {
    int start = ++at;
    String digits = digits();
    if (digits.isEmpty()) {
      throw refuse(start, "a whole number is expected under the fraction stroke");
    }
    Rational below = Rational.of(digits);
    if (below.signum() == 0) {
      throw refuse(start, "nothing can be divided by zero");
    }
    return below;
  }

  private void refuseExponentAndHyphen() {
    char next = charAt(at + 1);
    if ((here() == 'e' || here() == 'E') && (isDigit(next) || isMinus(next) || next == '+')) {
      throw refuse(at, "powers of ten are not read; write the number in full");
    }
    if (isMinus(here()) && isDigit(next)) {
      throw refuse(at, "a hyphen may be a minus or a range; write a space before a fraction");
    }
  }

  private String digits() {
    int start = at;
    while (isDigit(here())) {
      at++;
    }
    return text.substring(start, at);
  }

  /** What a refusal names: up to the next blank. */
  private String word() {
    int end = at + 1;
    while (end < text.length() && !isBlank(text.charAt(end)) && !isBreak(text.charAt(end))) {
      end++;
    }
    return text.substring(at, end);
  }

  private void end() {
    skipBlanksAndBreaks();
    if (at < text.length()) {
      throw refuse(at, "one quantity is wanted, and something follows it");
    }
  }

  private void limit(int longest) {
    if (text.length() > longest) {
      throw refuse(longest, "no more than " + longest + " characters are read");
    }
  }

  private void skipBlanks() {
    while (isBlank(here())) {
      at++;
    }
  }

  /** Skips white space of any sort, and says whether a line ended in it. */
  private boolean skipBlanksAndBreaks() {
    boolean broke = false;
    while (isBlank(here()) || isBreak(here())) {
      broke |= isBreak(here());
      at++;
    }
    return broke;
  }

  private boolean startsNumber() {
    return isDigit(here()) || FRACTIONS.containsKey(here()) || isMarkBeforeDigit();
  }

  private boolean isMarkBeforeDigit() {
    return (here() == '.' || here() == ',') && isDigit(charAt(at + 1));
  }

  private char here() {
    return charAt(at);
  }

  private char charAt(int index) {
    return index < text.length() ? text.charAt(index) : END;
  }

  /** ASCII digits alone: other scripts' digits would pass {@link Character#isDigit(char)}. */
  private static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }

  private static boolean isMinus(char c) {
    return c == '-' || c == '\u2212';
  }

  private static boolean isSlash(char c) {
    return c == '/' || c == '\u2044';
  }

  /** A space of any width, no-break and thin ones too. */
  private static boolean isBlank(char c) {
    return c == '\t' || Character.getType(c) == Character.SPACE_SEPARATOR;
  }

  private static boolean isBreak(char c) {
    return c == '\n' || c == '\r' || c == '\u2028' || c == '\u2029';
  }

  private UnreadableQuantity refuse(int position, String reason) {
    return new UnreadableQuantity(text, position, reason, example);
  }
}
