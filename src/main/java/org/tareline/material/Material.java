package org.tareline.material;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.SizedPiece;
import org.tareline.evidence.Stated;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.units.AreaDensity;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.LineDensity;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Tolerance;

/** Fabric, netting, cord or other stock that things are made of. */
@Entity
@Table(name = "material")
public class Material {

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
  private String kind;

  @Column(name = "grams_per_square_metre")
  private @Nullable BigDecimal gramsPerSquareMetre;

  @Column(name = "grams_per_metre")
  private @Nullable BigDecimal gramsPerMetre;

  @Column(name = "each_ng")
  private @Nullable Long each;

  @Column(name = "nominal_typed")
  private @Nullable String nominalTyped;

  @Column(name = "tolerance_typed")
  private @Nullable String toleranceTyped;

  @Column(name = "fill_power")
  private @Nullable BigDecimal fillPower;

  @Column(name = "width_nm")
  private @Nullable Long width;

  @Column(name = "width_typed")
  private @Nullable String widthTyped;

  @Column(name = "strength_typed")
  private @Nullable String strengthTyped;

  @Column(name = "strength_kind")
  private @Nullable String strengthKind;

  /** The word of a fibre. */
  @Column private @Nullable String fibre;

  @Column(name = "price_typed")
  private @Nullable String priceTyped;

  @Column private @Nullable String colour;

  @Column private @Nullable String note;

  @Column(name = "stock_typed")
  private @Nullable String stockTyped;

  /** The word of a use: printed or weighed, also while something learned is in use. */
  @Column private @Nullable String chosen;

  @Column(name = "learned_grams")
  private @Nullable BigDecimal learnedGrams;

  @Column(name = "learned_uncertainty")
  private @Nullable Double learnedUncertainty;

  @Column(name = "learned_freedom")
  private @Nullable Double learnedFreedom;

  @Column(name = "learned_ratio")
  private @Nullable Double learnedRatio;

  @Column(name = "learned_parts")
  private @Nullable Integer learnedParts;

  @Column(name = "learned_against")
  private @Nullable String learnedAgainst;

  @Column(name = "learned_at")
  private @Nullable Instant learnedAt;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  @Column(nullable = false)
  private int revision;

  protected Material() {}

  Material(long ledgerId, Materials.Read read, Instant createdAt) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.createdAt = createdAt;
    describe(read);
  }

  /** Takes on what was read, as a new revision. */
  void describe(Materials.Read read) {
    this.code = read.code();
    this.codeKey = Codes.key(read.code());
    this.name = read.name();
    this.kind = read.kind().word();
    this.gramsPerSquareMetre = null;
    this.gramsPerMetre = null;
    this.each = null;
    this.nominalTyped = null;
    Nominal nominal = read.nominal();
    if (nominal != null) {
      Quantity quantity = nominal.quantity();
      switch (nominal.per()) {
        case SQUARE_METRE -> gramsPerSquareMetre = quantity.areaDensity().gramsPerSquareMetre();
        case METRE -> gramsPerMetre = quantity.lineDensity().gramsPerMetre();
        case PIECE -> each = quantity.mass().nanograms();
      }
      this.nominalTyped = nominal.typed();
    }
    this.toleranceTyped = read.toleranceTyped();
    this.fillPower = read.fillPower();
    this.width = read.width() == null ? null : read.width().nanometres();
    this.widthTyped = read.widthTyped();
    this.strengthTyped = read.strengthTyped();
    this.strengthKind = read.strengthKind() == null ? null : read.strengthKind().word();
    this.fibre = read.fibre() == null ? null : read.fibre().word();
    this.priceTyped = read.priceTyped();
    this.colour = read.colour();
    this.note = read.note();
    this.stockTyped = read.stockTyped();
    if (read.chosen() != MaterialMass.Use.LEARNED) {
      this.chosen = read.chosen() == null ? null : read.chosen().word();
      learn(null);
    }
    this.revision++;
  }

  /** Whether it comes to the same figures, and says all of what was learned or nothing. */
  boolean saysAs(Materials.Read read) {
    Nominal nominal = read.nominal();
    Per per = nominal == null ? null : nominal.per();
    Mass mass = per == Per.PIECE && nominal != null ? nominal.quantity().mass() : null;
    return same(gramsPerSquareMetre, per == Per.SQUARE_METRE ? nominal : null)
        && same(gramsPerMetre, per == Per.METRE ? nominal : null)
        && Objects.equals(each, mass == null ? null : mass.nanograms())
        && Objects.equals(width, read.width() == null ? null : read.width().nanometres())
        && (taken().isPresent()
            || Stream.of(
                    learnedGrams,
                    learnedUncertainty,
                    learnedFreedom,
                    learnedRatio,
                    learnedParts,
                    learnedAgainst,
                    learnedAt)
                .allMatch(Objects::isNull));
  }

  /** To what the column keeps of it. */
  private static boolean same(@Nullable BigDecimal kept, @Nullable Nominal nominal) {
    return kept == null || nominal == null
        ? kept == null && nominal == null
        : nominal.grams().setScale(kept.scale(), RoundingMode.HALF_EVEN).compareTo(kept) == 0;
  }

  /** Is taken to weigh what was learned, or, with null, what it was before, as a new revision. */
  void take(@Nullable Taken learned) {
    learn(learned);
    this.revision++;
  }

  private void learn(@Nullable Taken learned) {
    this.learnedGrams = learned == null ? null : learned.grams();
    this.learnedUncertainty = learned == null ? null : learned.standardUncertainty();
    this.learnedFreedom =
        learned == null || Double.isInfinite(learned.degreesOfFreedom())
            ? null
            : learned.degreesOfFreedom();
    this.learnedRatio = learned == null ? null : learned.ratio();
    this.learnedParts = learned == null ? null : learned.parts();
    this.learnedAgainst = learned == null ? null : learned.against().word();
    this.learnedAt = learned == null ? null : learned.at();
  }

  /**
   * A state as it is kept with each revision.
   *
   * @param learned null where nothing learned is in use
   */
  record Kept(@JsonUnwrapped Materials.Entry entry, @Nullable Taken learned) {}

  Kept kept() {
    return new Kept(
        new Materials.Entry(
            code,
            name,
            kind,
            nominalTyped,
            null,
            toleranceTyped,
            fillPower().map(BigDecimal::toPlainString).orElse(null),
            widthTyped,
            strengthTyped,
            strengthKind,
            fibre,
            priceTyped,
            colour,
            note,
            stockTyped,
            chosen().map(MaterialMass.Use::word).orElse(null)),
        taken().orElse(null));
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

  public MaterialKind kind() {
    return MaterialKind.of(kind).orElse(MaterialKind.OTHER);
  }

  /** What a seller prints, as it was typed. */
  public Optional<String> nominalTyped() {
    return Optional.ofNullable(nominalTyped);
  }

  /** What a seller prints. */
  public Optional<Nominal> nominal() {
    if (nominalTyped == null) {
      return Optional.empty();
    }
    Nominal read = Nominal.read(new Faults(), kind(), nominalTyped, null);
    return Optional.of(read == null ? asKept(nominalTyped) : read);
  }

  /** By the figures beside the text, should that read no more. */
  private Nominal asKept(String typed) {
    if (gramsPerSquareMetre != null) {
      Quantity quantity = Quantity.of(new AreaDensity(gramsPerSquareMetre));
      return new Nominal(Per.SQUARE_METRE, quantity, null, null, typed);
    }
    return gramsPerMetre != null
        ? new Nominal(Per.METRE, Quantity.of(new LineDensity(gramsPerMetre)), null, null, typed)
        : new Nominal(Per.PIECE, Quantity.of(new Mass(each == null ? 0 : each)), null, null, typed);
  }

  /** What its mass is for; nothing of a filling. */
  public Optional<Per> per() {
    if (fillPower != null) {
      return Optional.empty();
    }
    return kind().only().or(() -> nominal().map(Nominal::per));
  }

  public Optional<String> toleranceTyped() {
    return Optional.ofNullable(toleranceTyped);
  }

  /** Of down and the like, in in³/oz: it goes by the mass that is filled in, not by area. */
  public Optional<BigDecimal> fillPower() {
    return Optional.ofNullable(fillPower).map(BigDecimal::stripTrailingZeros);
  }

  /** What of the width of a roll can be used. */
  public Optional<Length> width() {
    return Optional.ofNullable(width).map(Length::new);
  }

  public Optional<String> widthTyped() {
    return Optional.ofNullable(widthTyped);
  }

  /** Not known where nothing is said. */
  public Optional<Quantity> strength() {
    return Optional.ofNullable(strengthTyped).map(typed -> Quantity.read(typed, Kind.FORCE, null));
  }

  public Optional<StrengthKind> strengthKind() {
    return Optional.ofNullable(strengthKind).flatMap(StrengthKind::of);
  }

  /** What it is made of, as far as the water it takes up from the air goes. */
  public Optional<Fibre> fibre() {
    return Optional.ofNullable(fibre).flatMap(Fibre::of);
  }

  public Optional<Price> price() {
    return Optional.ofNullable(priceTyped).flatMap(Price::read);
  }

  public Optional<String> priceTyped() {
    return Optional.ofNullable(priceTyped);
  }

  public Optional<String> colour() {
    return Optional.ofNullable(colour);
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  /** What its stock is counted in; nothing as long as nobody said what its mass is for. */
  public Optional<OnHand.Measure> measure() {
    return Optional.ofNullable(OnHand.Measure.of(per().orElse(null), fillPower != null));
  }

  /** How much was on hand before the record of its stock begins. */
  public Optional<String> stockTyped() {
    return Optional.ofNullable(stockTyped);
  }

  /** Which of printed, weighed and learned is used, where somebody chose. */
  public Optional<MaterialMass.Use> chosen() {
    return taken()
        .map(any -> MaterialMass.Use.LEARNED)
        .or(() -> Optional.ofNullable(MaterialMass.Use.of(chosen)));
  }

  /** What was learned from parts of it, where that is in use. */
  public Optional<Taken> taken() {
    MaterialMass.Use against = MaterialMass.Use.of(learnedAgainst);
    return learnedGrams == null
            || learnedUncertainty == null
            || learnedRatio == null
            || learnedParts == null
            || learnedAt == null
            || against == null
        ? Optional.empty()
        : Optional.of(
            new Taken(
                learnedGrams,
                learnedUncertainty,
                learnedFreedom == null ? Double.POSITIVE_INFINITY : learnedFreedom,
                learnedRatio,
                learnedParts,
                against,
                learnedAt));
  }

  public int revision() {
    return revision;
  }

  /** By what a seller prints, off by the tolerance at most, every value in it as likely. */
  Optional<MassPer> printed(BigDecimal ledgerTolerance) {
    return nominal()
        .map(
            nominal -> {
              BigDecimal grams = nominal.grams();
              BigDecimal share =
                  toleranceTyped == null
                      ? ledgerTolerance
                      : tolerance(nominal, toleranceTyped).divide(grams, MathContext.DECIMAL128);
              BigDecimal units = grams.multiply(BigDecimal.valueOf(SizedPiece.UNITS));
              return new MassPer(
                  nominal.per(),
                  Stated.of(
                          "material:" + uuid + ":nominal",
                          "nominal mass of " + code,
                          Mass.fromGrams(units),
                          Mass.fromGrams(units.multiply(share)))
                      .estimate());
            });
  }

  /** The half-width of a tolerance in g for one square metre, metre or piece. */
  static BigDecimal tolerance(Nominal nominal, String typed) {
    Quantity printed = nominal.asPrinted();
    Quantity halfWidth = Tolerance.read(typed, printed.kind(), printed.unit()).of(printed);
    Quantity width = nominal.width();
    if (halfWidth.signum() == 0) {
      return BigDecimal.ZERO;
    }
    Quantity each = width == null ? halfWidth : halfWidth.atWidth(width);
    return new BigDecimal(each.in(Nominal.unit(nominal.per())).value());
  }
}
