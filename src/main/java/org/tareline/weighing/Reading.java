package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import org.tareline.units.Mass;

/** What the scale showed once, exactly, and as it was typed. */
@Embeddable
public class Reading {

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "reading_ng", nullable = false)
  private long nanograms;

  @Column(nullable = false)
  private String typed;

  protected Reading() {}

  Reading(long ledgerId, Mass mass, String typed) {
    this.ledgerId = ledgerId;
    this.nanograms = mass.nanograms();
    this.typed = typed;
  }

  public Mass mass() {
    return new Mass(nanograms);
  }

  public String typed() {
    return typed;
  }
}
