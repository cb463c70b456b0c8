package org.tareline.evidence;

import java.util.Locale;
import java.util.Optional;

/**
 * What a cloth, a cord or a filling is made of, as far as the water it takes up from the air goes.
 * What it takes up is its moisture regain: grams of water for each gram of it when dry.
 */
public enum Fibre {
  /** Nylon 6 and 6.6. */
  NYLON(0.045, "nylon"),
  POLYESTER(0.004, "polyester"),
  /** Polyethylene, HMPE among it. */
  HMPE(0, "HMPE or other polyethylene"),
  COTTON(0.07, "cotton"),
  WOOL(0.136, "wool"),
  /** Between 10 and 13 per cent; from memory. */
  DOWN(0.115, "down");

  private final double regain;
  private final String pageWords;

  Fibre(double regain, String pageWords) {
    this.regain = regain;
    this.pageWords = pageWords;
  }

  /**
   * Moisture regain in air of 65 % relative humidity and 20 °C, as a fraction of the dry mass: the
   * commercial regains of ASTM D1909, but for down, which it does not name.
   */
  public double regain() {
    return regain;
  }

  /** The word in API and database. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The words on a page. */
  public String pageWords() {
    return pageWords;
  }

  /** The fibre of a word, in any case. */
  public static Optional<Fibre> of(String word) {
    for (Fibre fibre : values()) {
      if (fibre.word().equals(word.strip().toLowerCase(Locale.ROOT))) {
        return Optional.of(fibre);
      }
    }
    return Optional.empty();
  }
}
