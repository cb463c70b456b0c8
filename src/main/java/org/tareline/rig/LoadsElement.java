package org.tareline.rig;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import org.jspecify.annotations.Nullable;

/** A part of a rig that stands in the path of the load, as typed. */
@Embeddable
record LoadsElement(
    @Column(name = "ledger_id") long ledgerId,
    @Column(name = "part_id") long partId,
    @Column String place,
    @Column @Nullable String termination,
    @Column(name = "termination_factor") @Nullable String terminationFactor,
    @Column(name = "termination_source") @Nullable String terminationSource,
    @Column @Nullable String length,
    @Column(name = "breaking_stretch") @Nullable String breakingStretch) {}
