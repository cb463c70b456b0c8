package org.tareline.part;

import java.util.Locale;
import java.util.Optional;
import org.tareline.site.Codes;

/** What a thing is for on a trip. */
public enum GearSystem {
  HANG("hang"),
  SLEEP("sleep"),
  RAIN("rain"),
  PACK("pack"),
  CLOTHING("clothing"),
  COOK("cook"),
  WATER("water"),
  FOOD("food"),
  LIGHT("light and navigation"),
  REPAIR("repair and first aid"),
  HYGIENE("hygiene"),
  OTHER("other");

  private final String pageWords;

  GearSystem(String pageWords) {
    this.pageWords = pageWords;
  }

  /** The word in the API and the database. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The words on a page. */
  public String pageWords() {
    return pageWords;
  }

  /** Reads the API's word or the page's. */
  public static Optional<GearSystem> of(String word) {
    String key = Codes.key(word);
    for (GearSystem system : values()) {
      if (system.word().equals(key) || system.pageWords.equals(key)) {
        return Optional.of(system);
      }
    }
    return Optional.empty();
  }
}
