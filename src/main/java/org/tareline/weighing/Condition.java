package org.tareline.weighing;

import java.util.Locale;
import java.util.Optional;
import org.tareline.site.Codes;

/** The state of a thing on the pan. Only a dry or an aired one says what the thing weighs. */
public enum Condition {
  DRY,
  AIRED,
  DAMP,
  WET;

  /** The word in pages, API and database. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Whether what was weighed so may say what its subject weighs. */
  public boolean saysTheMass() {
    return this == DRY || this == AIRED;
  }

  static Optional<Condition> of(String word) {
    String key = Codes.key(word);
    for (Condition condition : values()) {
      if (condition.word().equals(key)) {
        return Optional.of(condition);
      }
    }
    return Optional.empty();
  }

  /** Stored by its word. */
  @jakarta.persistence.Converter
  static final class Stored implements jakarta.persistence.AttributeConverter<Condition, String> {

    @Override
    public String convertToDatabaseColumn(Condition condition) {
      return condition.word();
    }

    @Override
    public Condition convertToEntityAttribute(String word) {
      return of(word)
          .orElseThrow(() -> new IllegalStateException("A condition is stored as " + word));
    }
  }
}
