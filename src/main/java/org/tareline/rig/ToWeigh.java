package org.tareline.rig;

import java.time.Clock;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.NextWeighings.Which;
import org.tareline.rollup.RollUp;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;

/** What to weigh next, on a scale of the ledger. */
@Service
@Transactional(readOnly = true)
public class ToWeigh {

  /** What to weigh next on a scale. */
  public record OnScale(Scale scale, NextWeighings next) {}

  private final Scales scales;
  private final Clock clock;

  ToWeigh(Scales scales, Clock clock) {
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
                    on,
                    NextWeighings.of(
                        rollUp, on.instrumentAt(clock.instant()), on.capacity(), which)));
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
                        first, second, on.instrumentAt(clock.instant()), on.capacity(), which)));
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
}
