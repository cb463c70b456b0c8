package org.tareline.material;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.SizedPiece;
import org.tareline.units.Length;

/**
 * A piece of a material of known size. What it weighs is a weighing of it; striking that out
 * strikes out the swatch. Never changed.
 */
@Entity
@Immutable
@Table(name = "swatch")
public class Swatch {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "material_id", nullable = false)
  private long materialId;

  @Column(name = "length_nm")
  private @Nullable Long length;

  @Column(name = "length_typed")
  private @Nullable String lengthTyped;

  @Column(name = "length_half_width_nm")
  private @Nullable Long lengthHalfWidth;

  @Column(name = "width_nm")
  private @Nullable Long width;

  @Column(name = "width_typed")
  private @Nullable String widthTyped;

  @Column(name = "width_half_width_nm")
  private @Nullable Long widthHalfWidth;

  @Column(name = "size_error_typed")
  private @Nullable String sizeErrorTyped;

  @Column private @Nullable String place;

  protected Swatch() {}

  Swatch(Material material, long ledgerId, Swatches.Size size) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.materialId = material.id();
    Swatches.Edge along = size.length();
    if (along != null) {
      this.length = along.length().nanometres();
      this.lengthTyped = along.typed();
      this.lengthHalfWidth = along.halfWidth().nanometres();
    }
    Swatches.Edge across = size.width();
    if (across != null) {
      this.width = across.length().nanometres();
      this.widthTyped = across.typed();
      this.widthHalfWidth = across.halfWidth().nanometres();
    }
    this.sizeErrorTyped = size.sizeErrorTyped();
    this.place = size.place();
  }

  /** Whether it comes to the same figures. */
  boolean isOf(Swatches.Size size) {
    Swatches.Edge along = size.length();
    Swatches.Edge across = size.width();
    return Objects.equals(length, along == null ? null : along.length().nanometres())
        && Objects.equals(lengthHalfWidth, along == null ? null : along.halfWidth().nanometres())
        && Objects.equals(width, across == null ? null : across.length().nanometres())
        && Objects.equals(widthHalfWidth, across == null ? null : across.halfWidth().nanometres());
  }

  long id() {
    return id;
  }

  long materialId() {
    return materialId;
  }

  /** The id by which the API and the pages know it. */
  public UUID uuid() {
    return uuid;
  }

  public Optional<Length> length() {
    return Optional.ofNullable(length).map(Length::new);
  }

  public Optional<String> lengthTyped() {
    return Optional.ofNullable(lengthTyped);
  }

  public Optional<Length> width() {
    return Optional.ofNullable(width).map(Length::new);
  }

  public Optional<String> widthTyped() {
    return Optional.ofNullable(widthTyped);
  }

  /** How far off each side may be, as typed; nothing where nothing was said. */
  public Optional<String> sizeErrorTyped() {
    return Optional.ofNullable(sizeErrorTyped);
  }

  /** Where on the roll it was cut. */
  public Optional<String> place() {
    return Optional.ofNullable(place);
  }

  /** What a weighing of it says of the material: see {@link MassPer#estimate()}. */
  Estimate units(Estimate mass) {
    List<SizedPiece.Side> sides = new ArrayList<>();
    if (length != null && lengthHalfWidth != null) {
      sides.add(new SizedPiece.Side("length", new Length(length), new Length(lengthHalfWidth)));
    }
    if (width != null && widthHalfWidth != null) {
      sides.add(new SizedPiece.Side("width", new Length(width), new Length(widthHalfWidth)));
    }
    return new SizedPiece("swatch:" + uuid, mass, sides).units();
  }
}
