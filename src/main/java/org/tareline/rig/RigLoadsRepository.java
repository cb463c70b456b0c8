package org.tareline.rig;

import java.util.Collection;
import java.util.List;
import org.springframework.data.repository.Repository;

interface RigLoadsRepository extends Repository<RigLoads, Long> {

  RigLoads save(RigLoads loads);

  void flush();

  List<RigLoads> findByLedgerIdAndRigIdIn(long ledgerId, Collection<Long> rigIds);
}
