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

  /** How often each scale that was ever used was used, and when last. */
  @Query(
      """
      select new org.tareline.weighing.Scales$Use(w.scale.id, count(w), max(w.weighedAt))
      from Weighing w
      where w.ledgerId = :ledgerId and w.scale is not null
      group by w.scale.id
      """)
  List<Scales.Use> uses(long ledgerId);

  @Query(
      """
      select w.scale from Weighing w
      where w.ledgerId = :ledgerId and w.scale is not null
      order by w.enteredAt desc, w.id desc
      """)
  List<Scale> lastUsed(long ledgerId, Limit limit);
}
