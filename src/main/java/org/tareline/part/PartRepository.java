package org.tareline.part;

import jakarta.persistence.LockModeType;
import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface PartRepository extends Repository<Part, Long> {

  Part save(Part part);

  void flush();

  Optional<Part> findByLedgerIdAndCodeKey(long ledgerId, String codeKey);

  Optional<Part> findByLedgerIdAndId(long ledgerId, long id);

  @Query("select p.id from Part p where p.ledgerId = :ledgerId and p.codeKey = :codeKey")
  Optional<Long> idOf(long ledgerId, String codeKey);

  /**
   * For changing it: nobody else changes it until this transaction ends. Ask by id, before it is
   * loaded unlocked.
   */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select p from Part p where p.ledgerId = :ledgerId and p.id = :id")
  Optional<Part> lock(long ledgerId, long id);

  List<Part> findByLedgerIdOrderByCodeKey(long ledgerId);

  List<Part> findByLedgerIdAndCodeKeyGreaterThanOrderByCodeKey(
      long ledgerId, String codeKey, Limit limit);

  @Query("select p from Part p where p.ledgerId = :ledgerId and any_of(p.id, :ids)")
  List<Part> byIds(long ledgerId, Long[] ids);

  @Query(
      nativeQuery = true,
      value =
          """
          select p.* from unnest(cast(:codeKeys as varchar array)) as k(code_key)
          join part p on p.ledger_id = :ledgerId and p.code_key = k.code_key
          """)
  List<Part> byCodeKeys(long ledgerId, String[] codeKeys);

  /**
   * Those whose code or name holds the text, best fit first: the code itself, its beginning, then
   * the rest by code.
   */
  @Query(
      """
      select p from Part p
      where p.ledgerId = :ledgerId
        and (p.codeKey like concat('%', :text, '%') escape '\\' or lower(p.name) like concat('%', :text, '%') escape '\\')
      order by
        case when p.codeKey like :text escape '\\' then 0
             when p.codeKey like concat(:text, '%') escape '\\' then 1
             when lower(p.name) like concat(:text, '%') escape '\\' then 2
             else 3 end,
        p.codeKey
      """)
  List<Part> holding(long ledgerId, String text, Limit limit);

  /** The part that a part is a variant of, and those that are variants of it, by code. */
  @Query(
      """
      select p from Part p
      where p.ledgerId = :ledgerId
        and (p.variantOfId = :id
          or p.id = (select q.variantOfId from Part q where q.ledgerId = :ledgerId and q.id = :id))
      order by p.codeKey
      """)
  List<Part> kin(long ledgerId, long id);

  /** Those that have neither a usable weighing nor anything that waits for one to replace it. */
  @Query(
      """
      select p from Part p
      where p.ledgerId = :ledgerId
        and not exists (
          select 1 from OnThePan o
          where o.ledgerId = :ledgerId and o.kind = 'part' and o.subjectId = p.id and o.usable = true
            and not exists (select 1 from Voiding v where v.id = o.weighing.id))
      order by p.codeKey
      """)
  List<Part> neverWeighed(long ledgerId, Limit limit);
}
