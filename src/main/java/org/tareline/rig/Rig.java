package org.tareline.rig;

import jakarta.persistence.CascadeType;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.OneToMany;
import jakarta.persistence.OrderBy;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;

/**
 * A nested assembly of parts and rigs. What its lines hold is known here by id alone; ask {@link
 * Rigs} for it.
 */
@Entity
@Table(name = "rig")
public class Rig {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String code;

  @Column(name = "code_key", nullable = false)
  private String codeKey;

  @Column(nullable = false)
  private String name;

  @Column private @Nullable String note;

  /** Never changes, so that no circle of variants can come about. */
  @Column(name = "variant_of_id", updatable = false)
  private @Nullable Long variantOfId;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  @Column(nullable = false)
  private int revision;

  @OneToMany(mappedBy = "rig", cascade = CascadeType.ALL, orphanRemoval = true)
  @OrderBy("position")
  @Column
  private List<RigLine> lines;

  protected Rig() {}

  /**
   * A new rig.
   *
   * @param variantOf the rig that it is a variant of; null where it is none
   */
  Rig(long ledgerId, Rigs.Read read, Instant createdAt, @Nullable Rig variantOf) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.variantOfId = variantOf == null ? null : variantOf.id;
    this.createdAt = createdAt;
    this.lines = new ArrayList<>();
    describe(read);
  }

  /** Takes on what was read, as a new revision; lines that stay keep their ids. */
  void describe(Rigs.Read read) {
    this.code = read.code();
    this.codeKey = Codes.key(read.code());
    this.name = read.name();
    this.note = read.note();
    this.revision++;
    Map<UUID, RigLine> standing = new HashMap<>();
    lines.forEach(line -> standing.put(line.uuid(), line));
    Set<UUID> described = new HashSet<>();
    for (Rigs.ReadLine line : read.lines()) {
      RigLine kept = standing.get(line.id());
      if (kept == null) {
        kept = new RigLine(this, line.id());
        lines.add(kept);
      }
      kept.describe(described.size(), line);
      described.add(line.id());
    }
    lines.removeIf(line -> !described.contains(line.uuid()));
  }

  List<RigLine> lines() {
    return lines;
  }

  long ledgerId() {
    return ledgerId;
  }

  public long id() {
    return id;
  }

  public UUID uuid() {
    return uuid;
  }

  public String code() {
    return code;
  }

  public String name() {
    return name;
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  /** The id of the rig that it is a variant of. */
  public Optional<Long> variantOf() {
    return Optional.ofNullable(variantOfId);
  }

  public int revision() {
    return revision;
  }
}
