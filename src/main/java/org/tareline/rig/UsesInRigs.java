package org.tareline.rig;

import java.util.List;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.part.WhereUsed;

/** Tells parts which rigs they stand in. */
@Service
@Transactional(readOnly = true)
class UsesInRigs implements WhereUsed {

  private final RigRepository rigs;

  UsesInRigs(RigRepository rigs) {
    this.rigs = rigs;
  }

  @Override
  public List<Use> usesOf(Member member, long partId) {
    return rigs.usesOfPart(member.ledgerId(), partId);
  }
}
