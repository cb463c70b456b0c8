package org.tareline.ledger;

import java.math.BigDecimal;
import org.tareline.units.MassStyle;

/**
 * Who asks, and in which ledger: every query takes its ledger from here.
 *
 * @param statedTolerance half-width given to a stated mass that came without one, as a fraction of
 *     it
 */
public record Member(
    long accountId,
    String accountName,
    MassStyle massStyle,
    long ledgerId,
    String ledgerName,
    BigDecimal statedTolerance,
    MemberRole role) {}
