package org.tareline.rig;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface ScopeRepository extends Repository<KeptScope, Long> {

  KeptScope save(KeptScope scope);

  @Query(
      """
      select s from KeptScope s left join fetch s.roles left join fetch s.leftOutLines
      where s.ledgerId = :ledgerId and s.codeKey = :codeKey
      """)
  Optional<KeptScope> named(long ledgerId, String codeKey);

  @Query(
      """
      select s from KeptScope s left join fetch s.roles left join fetch s.leftOutLines
      where s.ledgerId = :ledgerId order by s.id
      """)
  List<KeptScope> all(long ledgerId);
}
