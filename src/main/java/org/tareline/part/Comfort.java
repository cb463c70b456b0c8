package org.tareline.part;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.units.Quantity;

/**
 * Down to what temperature a thing is stated to keep somebody comfortable, as its maker says.
 *
 * @param temperature as it was stated; null where it is not known
 * @param kind what the temperature says; null where there is none
 * @param side of the sleeper that it is for; null where it was not said
 */
public record Comfort(@Nullable Quantity temperature, @Nullable Kind kind, @Nullable Side side) {

  /**
   * What a temperature says. The first three are words of ISO 23537-1:2016 for sleeping bags on a
   * mat, by a manikin and a model of heat balance; quilts and what hangs below a hammock are
   * outside its method.
   */
  public enum Kind {
    /** A standard woman lies relaxed and does not feel cold. */
    COMFORT("comfort", "comfort: a standard woman, lying relaxed"),
    /** A standard man lies curled up and does not feel cold. */
    LIMIT("limit", "limit: a standard man, curled up"),
    /** A standard woman is at risk from here on. */
    EXTREME("extreme", "extreme: a risk to health, not to sleep by"),
    /** By whatever the maker went. */
    MAKERS_OWN("maker's own", "the maker's own figure");

    private final String word;
    private final String pageWords;

    Kind(String word, String pageWords) {
      this.word = word;
      this.pageWords = pageWords;
    }

    /** The word in API and database. */
    public String word() {
      return word;
    }

    public String pageWords() {
      return pageWords;
    }

    static Optional<Kind> of(String word) {
      String key = Codes.key(word).replace('’', '\'');
      return Arrays.stream(values()).filter(kind -> kind.word.equals(key)).findFirst();
    }
  }

  /** Of a sleeper: a hammock wants insulation above and below, and one does not help the other. */
  public enum Side {
    ABOVE("above"),
    BELOW("below"),
    WORN("worn");

    private final String word;

    Side(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }

    static Optional<Side> of(String word) {
      String key = Codes.key(word);
      return Arrays.stream(values()).filter(side -> side.word.equals(key)).findFirst();
    }
  }

  /** A comfort temperature as somebody typed it, with its unit. */
  public record Entry(
      @Nullable String temperature, @Nullable String kind, @Nullable String insulates) {

    static final Entry NONE = new Entry(null, null, null);
  }

  /** One that could be read. */
  record Read(@Nullable String temperature, @Nullable Kind kind, @Nullable Side side) {

    static final Read NONE = new Read(null, null, null);
  }

  static final String FIELD = "comfortTemperature";

  /** Reads one; what is not said to be a word of the standard is the maker's own. */
  static Read read(Faults faults, @Nullable Entry typed) {
    Entry entry = typed == null ? Entry.NONE : typed;
    String temperature =
        faults.optionalText(
            FIELD + ".temperature", entry.temperature(), "the comfort temperature", 200);
    if (temperature != null) {
      faults.read(
          FIELD + ".temperature",
          () -> Quantity.read(temperature, org.tareline.units.Kind.TEMPERATURE, null));
    }
    String word = faults.optionalText(FIELD + ".kind", entry.kind(), "what it says", 60);
    Kind kind = word == null ? Kind.MAKERS_OWN : Kind.of(word).orElse(null);
    if (word != null && kind == null) {
      faults.add(
          FIELD + ".kind",
          "Say comfort, limit, extreme or maker's own; read \"" + Faults.shortened(word) + "\".");
    } else if (word != null && temperature == null) {
      faults.add(FIELD + ".temperature", "Give the temperature that this says the kind of.");
    }
    String where =
        faults.optionalText(FIELD + ".insulates", entry.insulates(), "where it insulates", 60);
    Side side = where == null ? null : Side.of(where).orElse(null);
    if (where != null && side == null) {
      faults.add(
          FIELD + ".insulates",
          "Say "
              + Arrays.stream(Side.values()).map(Side::word).collect(Collectors.joining(", "))
              + ", or leave it out; read \""
              + Faults.shortened(where)
              + "\".");
    }
    return new Read(temperature, temperature == null ? null : kind, side);
  }

  /** As it is kept; nothing where nothing is. */
  static Optional<Comfort> kept(
      @Nullable String temperature, @Nullable String kind, @Nullable String side) {
    return temperature == null && side == null
        ? Optional.empty()
        : Optional.of(
            new Comfort(
                temperature == null
                    ? null
                    : Quantity.read(temperature, org.tareline.units.Kind.TEMPERATURE, null),
                kind == null ? null : Kind.of(kind).orElse(null),
                side == null ? null : Side.of(side).orElse(null)));
  }

  /** As a sentence for a page. */
  public String sentence() {
    return (temperature == null || kind == null
            ? "How cold a night it is for is not stated"
            : kind == Kind.EXTREME
                ? "Its extreme is stated as " + temperature + ": a risk to health, not to sleep by"
                : "Stated for nights down to " + temperature + " (" + kind.pageWords() + ")")
        + (side == null ? "" : side == Side.WORN ? "; worn" : "; " + side.word + " the sleeper")
        + ".";
  }

  /** As it would be typed. */
  public Entry entry() {
    return new Entry(
        temperature == null ? null : temperature.text(),
        kind == null ? null : kind.word(),
        side == null ? null : side.word());
  }
}
