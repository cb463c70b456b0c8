package org.tareline.ledger;

import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface RevisionRepository extends Repository<Revision, Long> {

  Revision save(Revision revision);

  @Query(
      """
      select new org.tareline.ledger.Revisions$Saved(a.name, r.madeAt)
      from Revision r join Account a on a.id = r.madeBy
      where r.ledgerId = :ledgerId and r.kind = :kind and r.subjectId = :subjectId
      order by r.number desc
      """)
  List<Revisions.Saved> newest(long ledgerId, String kind, long subjectId, Limit limit);

  @Query(
      """
      select distinct r.subjectId from Revision r
      where r.ledgerId = :ledgerId and r.kind = :kind and any_of(r.subjectId, :subjectIds) and r.madeAt > :since
      """)
  Set<Long> savedSince(long ledgerId, String kind, Long[] subjectIds, Instant since);

  @Query(
      """
      select count(r) > 0 from Revision r
      where r.ledgerId = :ledgerId and r.kind = :kind and r.subjectId = :subjectId
        and locate(:text, r.content) > 0
      """)
  boolean everHeld(long ledgerId, String kind, long subjectId, String text);
}
