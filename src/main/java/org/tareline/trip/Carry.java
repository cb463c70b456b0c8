package org.tareline.trip;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Converter;
import java.util.Locale;
import java.util.Optional;
import org.tareline.site.Codes;

/** How a line of a trip travels. */
public enum Carry {
  /** Carried in the pack, and brought home again. */
  BASE("in the pack"),
  /** Carried by the person and not by the pack. */
  WORN("on the body or in the hand"),
  /** In the pack at the start, and gone at the end. */
  CONSUMABLE("used up on the way");

  private final String pageWords;

  Carry(String pageWords) {
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

  /** Reads the API's word. */
  public static Optional<Carry> of(String word) {
    String key = Codes.key(word);
    for (Carry carry : values()) {
      if (carry.word().equals(key)) {
        return Optional.of(carry);
      }
    }
    return Optional.empty();
  }

  /** By its word, as the database checks it. */
  @Converter
  static final class Stored implements AttributeConverter<Carry, String> {

    @Override
    public String convertToDatabaseColumn(Carry carry) {
      return carry.word();
    }

    @Override
    public Carry convertToEntityAttribute(String word) {
      return of(word).orElseThrow();
    }
  }
}
