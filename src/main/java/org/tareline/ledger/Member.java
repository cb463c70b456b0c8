package org.tareline.ledger;

import java.math.BigDecimal;
import org.tareline.units.MassStyle;

/** Who asks, and in which ledger: every query takes its ledger from here. */
public record Member(
    long accountId,
    String accountName,
    MassStyle massStyle,
    long ledgerId,
    String ledgerName,
    Settings settings,
    MemberRole role) {

  /** As {@link Settings#statedTolerance}. */
  public BigDecimal statedTolerance() {
    return settings.statedTolerance();
  }
}
