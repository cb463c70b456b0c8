package org.tareline.part;

import jakarta.persistence.AttributeOverride;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.CutList;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Pieces;
import org.tareline.evidence.Stated;
import org.tareline.material.StrengthKind;
import org.tareline.site.Codes;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** One kind of thing owned or being made. */
@Entity
@Table(name = "part")
public class Part {

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

  @Column(nullable = false)
  private String system;

  @Column(nullable = false)
  private int owned;

  @Column(name = "stated_ng")
  private @Nullable Long stated;

  @Column(name = "stated_typed")
  private @Nullable String statedTyped;

  @Column(name = "stated_half_width_ng")
  private @Nullable Long statedHalfWidth;

  @Column(name = "stated_tolerance_typed")
  private @Nullable String statedToleranceTyped;

  /** The word of a fibre. */
  @Column private @Nullable String fibre;

  @Column(name = "cutting_tolerance_nm")
  private @Nullable Long cuttingTolerance;

  @Column(name = "cutting_tolerance_typed")
  private @Nullable String cuttingToleranceTyped;

  @Column(name = "strength_typed")
  private @Nullable String strengthTyped;

  @Column(name = "strength_kind")
  private @Nullable String strengthKind;

  @Column(name = "comfort_typed")
  private @Nullable String comfortTyped;

  @Column(name = "comfort_kind")
  private @Nullable String comfortKind;

  @Column private @Nullable String insulates;

  @AttributeOverride(name = "millilitres", column = @Column(name = "packed_volume_ml"))
  @AttributeOverride(name = "volumeTyped", column = @Column(name = "packed_volume_typed"))
  @AttributeOverride(name = "nanometres", column = @Column(name = "packed_length_nm"))
  @AttributeOverride(name = "lengthTyped", column = @Column(name = "packed_length_typed"))
  private @Nullable PackedSize packed;

  @Column private @Nullable String note;

  /** Never changes, so that no circle of variants can come about. */
  @Column(name = "variant_of_id", updatable = false)
  private @Nullable Long variantOfId;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  @Column(nullable = false)
  private int revision;

  protected Part() {}

  /**
   * A new part.
   *
   * @param variantOf the part that it is a variant of; null where it is none
   */
  Part(long ledgerId, Parts.Read read, Instant createdAt, @Nullable Part variantOf) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.variantOfId = variantOf == null ? null : variantOf.id;
    this.createdAt = createdAt;
    describe(read);
  }

  /** Takes on what was read, as a new revision. */
  void describe(Parts.Read read) {
    this.code = read.code();
    this.codeKey = Codes.key(read.code());
    this.name = read.name();
    this.system = read.system().word();
    this.owned = read.owned();
    this.stated = read.stated() == null ? null : read.stated().nanograms();
    this.statedTyped = read.statedTyped();
    this.statedHalfWidth =
        read.statedHalfWidth() == null ? null : read.statedHalfWidth().nanograms();
    this.statedToleranceTyped = read.statedToleranceTyped();
    this.fibre = read.fibre() == null ? null : read.fibre().word();
    this.strengthTyped = read.strengthTyped();
    this.strengthKind = read.strengthKind() == null ? null : read.strengthKind().word();
    Comfort.Read comfort = read.comfort();
    this.comfortTyped = comfort.temperature();
    this.comfortKind = comfort.kind() == null ? null : comfort.kind().word();
    this.insulates = comfort.side() == null ? null : comfort.side().word();
    this.packed = read.packed();
    this.note = read.note();
    if (read.sheet() != null) {
      this.cuttingTolerance = read.sheet().toleranceNanometres();
      this.cuttingToleranceTyped = read.sheet().toleranceTyped();
    }
    this.revision++;
  }

  /** Is owned so many times from now on, as a new revision. */
  void own(int owned) {
    this.owned = owned;
    this.revision++;
  }

  /** As an entry that says all that is kept of it. */
  Parts.Read read() {
    return new Parts.Read(
        code,
        name,
        system(),
        owned,
        stated().orElse(null),
        statedTyped,
        statedHalfWidth().orElse(null),
        statedToleranceTyped,
        fibre().orElse(null),
        strengthTyped,
        StrengthKind.of(strengthKind == null ? "" : strengthKind).orElse(null),
        comfort()
            .map(comfort -> new Comfort.Read(comfortTyped, comfort.kind(), comfort.side()))
            .orElse(Comfort.Read.NONE),
        packed(),
        note,
        null);
  }

  /** As it would be typed, but for its cut list. */
  Parts.Entry entry() {
    return new Parts.Entry(
        code,
        name,
        system,
        String.valueOf(owned),
        new Parts.StatedEntry(statedTyped, statedToleranceTyped),
        fibre,
        new Parts.StrengthEntry(strengthTyped, strengthKind),
        new Comfort.Entry(comfortTyped, comfortKind, insulates),
        new PackedSize.Entry(packed().volumeTyped(), packed().lengthTyped()),
        note,
        null);
  }

  /** Whether it comes to the same figures. */
  boolean saysAs(Parts.Read read) {
    return Objects.equals(stated, read.stated() == null ? null : read.stated().nanograms())
        && Objects.equals(
            statedHalfWidth,
            read.statedHalfWidth() == null ? null : read.statedHalfWidth().nanograms())
        && packed().saysAs(read.packed());
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

  public GearSystem system() {
    return GearSystem.of(system).orElse(GearSystem.OTHER);
  }

  public int owned() {
    return owned;
  }

  public Optional<String> statedTyped() {
    return Optional.ofNullable(statedTyped);
  }

  public Optional<String> statedToleranceTyped() {
    return Optional.ofNullable(statedToleranceTyped);
  }

  public Optional<Mass> stated() {
    return Optional.ofNullable(stated).map(Mass::new);
  }

  /** The tolerance of its stated mass, where one was given. */
  public Optional<Mass> statedHalfWidth() {
    return Optional.ofNullable(statedHalfWidth).map(Mass::new);
  }

  /** What it is made of, as far as the water it takes up from the air goes. */
  public Optional<Fibre> fibre() {
    return Optional.ofNullable(fibre).flatMap(Fibre::of);
  }

  /** ± of every cut edge in metres: its own, else what is common practice. */
  double cuttingTolerance() {
    return cuttingTolerance == null
        ? CutList.COMMON_TOLERANCE
        : new Length(cuttingTolerance).inMetres();
  }

  /** The same as far as it is its own. */
  @Nullable Long cuttingToleranceNanometres() {
    return cuttingTolerance;
  }

  public Optional<String> cuttingToleranceTyped() {
    return Optional.ofNullable(cuttingToleranceTyped);
  }

  /** What it holds by itself, as stated of the part and not of what it is cut from. */
  public Optional<Strength> strength() {
    return strengthTyped == null
        ? Optional.empty()
        : Optional.of(
            new Strength(
                Quantity.read(strengthTyped, Kind.FORCE, null),
                StrengthKind.of(strengthKind == null ? "" : strengthKind)
                    .orElse(StrengthKind.MINIMUM_BREAKING),
                null));
  }

  /** How cold a night it is stated for, and of which side; nothing where neither was said. */
  public Optional<Comfort> comfort() {
    return Comfort.kept(comfortTyped, comfortKind, insulates);
  }

  /** The room it takes when it is packed. */
  public PackedSize packed() {
    return packed == null ? PackedSize.UNKNOWN : packed;
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  /** The id of the part that it is a variant of. */
  public Optional<Long> variantOf() {
    return Optional.ofNullable(variantOfId);
  }

  public int revision() {
    return revision;
  }

  /**
   * What it weighs by the best evidence there is.
   *
   * @param newest its newest usable weighing, if it has one
   */
  PartMass mass(Weighings.@Nullable Newest newest, AirOfDay air) {
    if (newest == null) {
      return statedMass(air.settings().statedTolerance());
    }
    if (newest.pieces().isEmpty()) {
      return new PartMass(air.weighed(this, newest.weighing()), Basis.WEIGHED, newest.weighing());
    }
    Pieces pieces =
        Pieces.of(
            "part:" + uuid,
            code,
            newest.pieces().values().stream().map(each -> air.weighed(this, each)).toList());
    return new PartMass(
        pieces.each(1),
        Basis.WEIGHED,
        newest.weighing(),
        pieces,
        List.copyOf(newest.pieces().values()),
        false);
  }

  /** What lay on the pan besides, and how many of it. */
  record Beside(Part part, PartMass mass, int quantity) {}

  /**
   * What is left for it of a weighing of several things, once the others are taken off. What the
   * air of that day did to the others is in the sum and not in what they weigh, unless they were
   * weighed in the same air.
   *
   * @param others what lay there besides
   * @return unknown where one of the others is, or where nothing is left
   */
  PartMass remainder(Weighing together, int quantity, List<Beside> others, AirOfDay air) {
    Estimate left = together.estimate();
    Basis basis = Basis.WEIGHED;
    for (Beside other : others) {
      Estimate each = other.mass().each(other.quantity());
      Basis otherBasis = other.mass().basis();
      if (each == null || otherBasis == null) {
        return PartMass.UNKNOWN;
      }
      Estimate all = each.times(other.quantity());
      left = left.minus(all).plus(air.on(other.part(), together, all.value()));
      basis = Basis.of(basis, otherBasis);
    }
    if (left.value().signum() <= 0) {
      return PartMass.UNKNOWN;
    }
    left = left.plus(air.on(this, together, left.value()));
    return new PartMass(left.dividedBy(quantity), basis, together, null, List.of(), true);
  }

  /** What it weighs by the stated mass alone, whether or not it was weighed. */
  PartMass statedMass(BigDecimal ledgerTolerance) {
    if (stated == null) {
      return PartMass.UNKNOWN;
    }
    Mass mass = new Mass(stated);
    Mass halfWidth =
        statedHalfWidth().orElseGet(() -> Mass.fromGrams(mass.grams().multiply(ledgerTolerance)));
    return new PartMass(
        Stated.of("part:" + uuid + ":stated", "stated mass of " + code, mass, halfWidth).estimate(),
        Basis.ESTIMATED,
        null);
  }
}
