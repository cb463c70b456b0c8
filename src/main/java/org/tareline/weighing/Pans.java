package org.tareline.weighing;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;

/** What lay on the pans of a ledger. */
@Service
class Pans implements ReadAgain {

  private final WeighingRepository weighings;

  Pans(WeighingRepository weighings) {
    this.weighings = weighings;
  }

  @Override
  public String table() {
    return "weighing_subject";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<OnThePan> of = weighings.pans(member.ledgerId(), ids.toArray(Long[]::new));
    Long[] weighed = of.stream().map(on -> on.weighing().id()).distinct().toArray(Long[]::new);
    Map<Long, List<OnThePan>> pans =
        weighings.onThePan(member.ledgerId(), weighed).stream()
            .collect(Collectors.groupingBy(on -> on.weighing().id()));
    return ReadAgain.each(
        of,
        OnThePan::id,
        on -> {
          Faults faults = new Faults();
          on.check(pans.getOrDefault(on.weighing().id(), List.of(on)), faults);
          faults.refuseIfAny();
        });
  }
}
