package org.tareline.label;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;

/**
 * What a label says of a part or a rig.
 *
 * @param kind {@code part} or {@code rig}
 * @param mass of one piece, or of all that is in the rig; null when nothing is known
 * @param atLeast whether there is more to a rig than the mass says
 * @param basis null when nothing is known
 * @param weighedAt when the part was weighed; null where its mass comes from elsewhere, and of a
 *     rig
 */
public record Label(
    String kind,
    String code,
    String name,
    @Nullable Estimate mass,
    boolean atLeast,
    @Nullable Basis basis,
    @Nullable Instant weighedAt) {}
