package org.tareline.rig;

import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.NextWeighings.Which;
import org.tareline.rollup.RollUp;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.units.Mass;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;

/** What to weigh next, on a scale of the ledger. */
@Service
@Transactional(readOnly = true)
public class ToWeigh {

  /** What to weigh next on a scale. */
  public record OnScale(Scale scale, NextWeighings next) {}

  private final Parts parts;
  private final Scales scales;
  private final Clock clock;

  ToWeigh(Parts parts, Scales scales, Clock clock) {
    this.parts = parts;
    this.scales = scales;
    this.clock = clock;
  }

  /**
   * For a total.
   *
   * @param scale code; the one last used when left out
   * @return nothing where the ledger has no scale
   * @throws NotThere if there is no such scale
   */
  public Optional<OnScale> forTotal(
      Member member, RollUp rollUp, @Nullable String scale, Which which) {
    return scale(member, scale)
        .map(
            on ->
                new OnScale(
                    on, NextWeighings.of(rollUp, asIs(member, on, List.of(rollUp)), which)));
  }

  /** For the difference of two, second − first; as {@link #forTotal}. */
  public Optional<OnScale> forDifference(
      Member member, RollUp first, RollUp second, @Nullable String scale, Which which) {
    return scale(member, scale)
        .map(
            on ->
                new OnScale(
                    on,
                    NextWeighings.of(
                        first, second, asIs(member, on, List.of(first, second)), which)));
  }

  private Optional<Scale> scale(Member member, @Nullable String code) {
    if (code == null || code.isBlank()) {
      return scales.lastUsed(member);
    }
    return Optional.of(
        scales
            .find(member, code)
            .orElseThrow(() -> new NotThere("scale as " + Faults.shortened(code))));
  }

  /** The scale as it is checked now, in the air of today. */
  private NextWeighings.Scale asIs(Member member, Scale scale, List<RollUp> of) {
    Set<String> codes = new HashSet<>();
    of.forEach(rollUp -> rollUp.leaves().forEach(leaf -> codes.add(leaf.piece().code())));
    Map<String, Part> held = parts.byCodes(member, codes);
    return new NextWeighings.Scale(
        scale.instrumentAt(clock.instant()),
        scale.capacity(),
        piece -> {
          Part part = held.get(Codes.key(piece.code()));
          return part == null || piece.each() == null
              ? Estimate.exact(Mass.ZERO)
              : parts.airNow(member, part, piece.each().value());
        });
  }
}
