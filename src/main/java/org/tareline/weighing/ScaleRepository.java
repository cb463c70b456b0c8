package org.tareline.weighing;

import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface ScaleRepository extends Repository<Scale, Long> {

  Scale save(Scale scale);

  Optional<Scale> findByLedgerIdAndCodeKey(long ledgerId, String codeKey);

  List<Scale> findByLedgerIdOrderByCodeKey(long ledgerId);

  @Query(
      """
      select w.scale from Weighing w
      where w.ledgerId = :ledgerId and w.scale is not null
      order by w.enteredAt desc, w.id desc
      """)
  List<Scale> lastUsed(long ledgerId, Limit limit);
}
