package org.tareline.trip;

import jakarta.persistence.AttributeOverride;
import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.part.PackedSize;
import org.tareline.site.Codes;
import org.tareline.units.Mass;

/** Somebody who carries a share of a trip. */
@Embeddable
public class Carrier {

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private int position;

  @Column(nullable = false)
  private String code;

  @Column(name = "code_key", nullable = false)
  private String codeKey;

  @Column(nullable = false)
  private String name;

  @Column(name = "body_ng")
  private @Nullable Long body;

  @Column(name = "body_typed")
  private @Nullable String bodyTyped;

  @AttributeOverride(name = "millilitres", column = @Column(name = "pack_volume_ml"))
  @AttributeOverride(name = "volumeTyped", column = @Column(name = "pack_volume_typed"))
  @AttributeOverride(name = "nanometres", column = @Column(name = "pack_length_nm"))
  @AttributeOverride(name = "lengthTyped", column = @Column(name = "pack_length_typed"))
  private @Nullable PackedSize pack;

  protected Carrier() {}

  Carrier(long ledgerId, int position, Trips.CarrierRead read) {
    this.ledgerId = ledgerId;
    this.position = position;
    this.code = read.code();
    this.codeKey = Codes.key(read.code());
    this.name = read.name();
    this.body = read.body() == null ? null : read.body().mass().nanograms();
    this.bodyTyped = read.body() == null ? null : read.body().typed();
    this.pack = read.pack();
  }

  /** Short; no other carrier of the trip has it. */
  public String code() {
    return code;
  }

  public String name() {
    return name;
  }

  /** What the person weighs, where it is given. */
  public Optional<Amount> body() {
    return body == null || bodyTyped == null
        ? Optional.empty()
        : Optional.of(new Amount(new Mass(body), bodyTyped));
  }

  /** What goes into the pack. */
  public PackedSize pack() {
    return pack == null ? PackedSize.UNKNOWN : pack;
  }
}
