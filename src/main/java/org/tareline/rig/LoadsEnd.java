package org.tareline.rig;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** One end of a rig as it hangs, as typed. */
@Embeddable
record LoadsEnd(
    @Column(name = "ledger_id") long ledgerId,
    @Column @Nullable String angle,
    @Column @Nullable String run,
    @Column @Nullable String rise,
    @Column(name = "body_angle") @Nullable String bodyAngle,
    @Column(name = "bar_length") @Nullable String barLength,
    @Column(name = "bar_leg") @Nullable String barLeg,
    @Column(name = "bar_apex_distance") @Nullable String barApexDistance,
    @Column(name = "bar_edge_angle") @Nullable String barEdgeAngle,
    @Column(name = "bar_outer_diameter") @Nullable String barOuterDiameter,
    @Column(name = "bar_wall") @Nullable String barWall,
    @Column(name = "bar_modulus") @Nullable String barModulus,
    @Column(name = "bar_yield") @Nullable String barYield) {

  static LoadsEnd of(long ledgerId, HangEntry.EndEntry end) {
    HangEntry.BarEntry bar = end.bar();
    return new LoadsEnd(
        ledgerId,
        stripped(end.angle()),
        stripped(end.run()),
        stripped(end.rise()),
        stripped(end.bodyAngle()),
        bar == null ? null : stripped(bar.length()),
        bar == null ? null : stripped(bar.leg()),
        bar == null ? null : stripped(bar.apexDistance()),
        bar == null ? null : stripped(bar.edgeAngle()),
        bar == null ? null : stripped(bar.outerDiameter()),
        bar == null ? null : stripped(bar.wall()),
        bar == null ? null : stripped(bar.modulus()),
        bar == null ? null : stripped(bar.yield()));
  }

  /** What was typed, or null where that is nothing. */
  static @Nullable String stripped(@Nullable String typed) {
    return typed == null || typed.isBlank() ? null : typed.strip();
  }

  HangEntry.EndEntry entry() {
    return new HangEntry.EndEntry(
        angle,
        run,
        rise,
        bodyAngle,
        Stream.of(
                    barLength,
                    barLeg,
                    barApexDistance,
                    barEdgeAngle,
                    barOuterDiameter,
                    barWall,
                    barModulus,
                    barYield)
                .allMatch(Objects::isNull)
            ? null
            : new HangEntry.BarEntry(
                barLength,
                barLeg,
                barApexDistance,
                barEdgeAngle,
                barOuterDiameter,
                barWall,
                barModulus,
                barYield));
  }
}
