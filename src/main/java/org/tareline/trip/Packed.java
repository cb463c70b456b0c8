package org.tareline.trip;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Converter;
import java.util.Arrays;
import java.util.Optional;
import org.tareline.site.Codes;

/** How far a thing is with being packed. */
public enum Packed {
  /** Nothing has been done about it yet, or it was taken out again. */
  OPEN("open"),
  /** It is somewhere else, and somebody has to get it. */
  TO_FETCH("to fetch"),
  /** It is in. */
  PACKED("packed");

  private final String word;

  Packed(String word) {
    this.word = word;
  }

  /** The word in pages, API and database. */
  public String word() {
    return word;
  }

  static Optional<Packed> of(String word) {
    String key = Codes.key(word);
    return Arrays.stream(values()).filter(packed -> packed.word.equals(key)).findFirst();
  }

  /** By its word, as the database checks it. */
  @Converter
  static final class Stored implements AttributeConverter<Packed, String> {

    @Override
    public String convertToDatabaseColumn(Packed packed) {
      return packed.word();
    }

    @Override
    public Packed convertToEntityAttribute(String word) {
      return of(word).orElseThrow();
    }
  }
}
