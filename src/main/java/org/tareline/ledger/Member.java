package org.tareline.ledger;

import java.math.BigDecimal;
import java.util.UUID;
import org.tareline.units.MassStyle;

/** Who asks, and in which ledger: every query takes its ledger from here. */
public record Member(
    long accountId,
    String accountName,
    MassStyle massStyle,
    long ledgerId,
    UUID ledger,
    String ledgerName,
    Settings settings,
    MemberRole role) {

  /** As {@link Settings#statedTolerance}. */
  public BigDecimal statedTolerance() {
    return settings.statedTolerance();
  }

  /** Whether this is somebody who was sent a link to one page and has no account here. */
  public boolean guest() {
    return role == MemberRole.GUEST;
  }

  /** Whether this is somebody who may change what is in the ledger. */
  public boolean mayChange() {
    return role.reaches(MemberRole.EDITOR);
  }

  /** The same, who may look and no more. */
  Member readingOnly() {
    return new Member(
        accountId,
        accountName,
        massStyle,
        ledgerId,
        ledger,
        ledgerName,
        settings,
        MemberRole.READER);
  }
}
