package org.tareline.trip;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Converter;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.Arrays;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/** What came of one thing on a trip, or that something was missed there. */
@Entity
@Table(name = "trip_outcome")
class TripOutcome {

  /** What can come of a thing. */
  enum Outcome {
    USED("used"),
    NOT_USED("not used"),
    /** Wanted, and not there. */
    MISSED("missed");

    private final String word;

    Outcome(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }

    static Optional<Outcome> of(String word) {
      String key = Codes.key(word);
      return Arrays.stream(values()).filter(outcome -> outcome.word.equals(key)).findFirst();
    }
  }

  /** Stored by its word. */
  @Converter
  static final class Stored implements AttributeConverter<Outcome, String> {

    @Override
    public String convertToDatabaseColumn(Outcome outcome) {
      return outcome.word();
    }

    @Override
    public Outcome convertToEntityAttribute(String word) {
      return Outcome.of(word).orElseThrow();
    }
  }

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "trip_id", nullable = false)
  private long tripId;

  @Column(name = "line_uuid")
  private @Nullable UUID line;

  @Column(name = "part_uuid")
  private @Nullable UUID part;

  @Column(name = "item_name")
  private @Nullable String item;

  @Convert(converter = Stored.class)
  @Column(nullable = false)
  private Outcome outcome;

  protected TripOutcome() {}

  /**
   * @param line null where it was not on the trip
   * @param part null where {@code item} names what is no part
   */
  TripOutcome(
      Trip trip, @Nullable UUID line, @Nullable UUID part, @Nullable String item, Outcome outcome) {
    this.ledgerId = trip.ledgerId();
    this.tripId = trip.id();
    this.line = line;
    this.part = part;
    this.item = item;
    this.outcome = outcome;
  }

  /** As kept with each revision of what came of a trip. */
  record Kept(@Nullable UUID line, @Nullable UUID part, @Nullable String item, String outcome) {}

  Kept kept() {
    return new Kept(line, part, item, outcome.word());
  }

  long id() {
    return id;
  }

  long tripId() {
    return tripId;
  }

  @Nullable UUID line() {
    return line;
  }

  Outcome outcome() {
    return outcome;
  }

  /** What it is said of: of one thing on a trip one thing alone is said. */
  String thing() {
    return line + " " + (part != null || line != null ? part : Codes.key(String.valueOf(item)));
  }

  /** Notes what could not have been typed so. */
  void check(Faults faults) {
    if (item != null && !faults.text("itemName", item, "what was missed", 200).equals(item)) {
      faults.add("itemName", "Leave spaces before and after the name out.");
    }
  }
}
