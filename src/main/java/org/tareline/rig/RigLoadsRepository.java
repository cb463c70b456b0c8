package org.tareline.rig;

import java.util.List;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface RigLoadsRepository extends Repository<RigLoads, Long> {

  RigLoads save(RigLoads loads);

  void flush();

  @Query("select l from RigLoads l where l.ledgerId = :ledgerId and any_of(l.id, :ids)")
  List<RigLoads> byIds(long ledgerId, Long[] ids);

  @Query("select l from RigLoads l where l.ledgerId = :ledgerId and any_of(l.rigId, :rigIds)")
  List<RigLoads> ofRigs(long ledgerId, Long[] rigIds);
}
