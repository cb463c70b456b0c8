package org.tareline.part;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Converter;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;

/**
 * Something that happened to a part. Never changed and never deleted; a wrong one is struck out.
 */
@Entity
@Immutable
@Table(name = "life_event")
public class LifeEvent {

  /** What happened. */
  public enum Kind {
    MADE(1, 0),
    REPAIRED(0, 0),
    WASHED(0, 0),
    MODIFIED(0, 0),
    DAMAGED(0, 0),
    RETIRED(-1, 0),
    LENT(0, 1),
    RETURNED(0, -1);

    private final int owned;
    private final int lent;

    Kind(int owned, int lent) {
      this.owned = owned;
      this.lent = lent;
    }

    /** The word in pages, API and database. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it changes how many are owned or lent. */
    public boolean countsPieces() {
      return owned != 0 || lent != 0;
    }

    /** How many more are owned after it, each piece counted. */
    int ownedBy(int pieces) {
      return owned * pieces;
    }

    /** How many more are lent after it, each piece counted. */
    int lentBy(int pieces) {
      return lent * pieces;
    }

    static Optional<Kind> of(String word) {
      String key = Codes.key(word);
      return Arrays.stream(values()).filter(kind -> kind.word().equals(key)).findFirst();
    }
  }

  /** Stored by its word. */
  @Converter
  static final class Stored implements AttributeConverter<Kind, String> {

    @Override
    public String convertToDatabaseColumn(Kind kind) {
      return kind.word();
    }

    @Override
    public Kind convertToEntityAttribute(String word) {
      return Kind.of(word)
          .orElseThrow(() -> new IllegalStateException("A life event is stored as " + word));
    }
  }

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "part_id", nullable = false)
  private long partId;

  @Convert(converter = Stored.class)
  @Column(nullable = false)
  private Kind kind;

  @Column(nullable = false)
  private int pieces;

  @Column private @Nullable String note;

  @Column(name = "happened_at", nullable = false)
  private Instant happenedAt;

  @Column(name = "entered_at", nullable = false)
  private Instant enteredAt;

  @Column(name = "entered_by", nullable = false)
  private long enteredBy;

  protected LifeEvent() {}

  LifeEvent(
      Part part,
      long ledgerId,
      Kind kind,
      int pieces,
      @Nullable String note,
      Instant happenedAt,
      Instant enteredAt,
      long enteredBy) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.partId = part.id();
    this.kind = kind;
    this.pieces = pieces;
    this.note = note;
    this.happenedAt = happenedAt;
    this.enteredAt = enteredAt;
    this.enteredBy = enteredBy;
  }

  long id() {
    return id;
  }

  long partId() {
    return partId;
  }

  long ledgerId() {
    return ledgerId;
  }

  /** The id by which the API and the pages know it. */
  public UUID uuid() {
    return uuid;
  }

  public Kind kind() {
    return kind;
  }

  /** How many pieces came to be or ceased to be owned or at hand; 0 where it changed neither. */
  public int pieces() {
    return pieces;
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  public Instant happenedAt() {
    return happenedAt;
  }
}
