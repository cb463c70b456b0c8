package org.tareline.part;

import jakarta.persistence.LockModeType;
import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Modifying;
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

  /** Id, code, name, system and how many are owned. */
  @Query("select p.id, p.code, p.name, p.system, p.owned from Part p where p.ledgerId = :ledgerId")
  List<Object[]> listed(long ledgerId);

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

  /**
   * Those that have no usable weighing that stands. One that has is told from them by its own
   * column, so that no more are looked at than are asked for, whatever the ledger holds.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          select p.* from part p
          where p.ledger_id = :ledgerId and p.waits = true
            and not exists (
              select 1 from weighing_subject o
              where o.ledger_id = :ledgerId and o.kind = 'part' and o.subject_id = p.id and o.usable = true
                and not exists (select 1 from weighing_void v where v.weighing_id = o.weighing_id))
          order by p.code_key
          fetch first :most rows only
          """)
  List<Part> neverWeighed(long ledgerId, int most);

  @Modifying
  @Query(
      nativeQuery = true,
      value =
          """
          update part set waits = :waits
          where ledger_id = :ledgerId and id = any(cast(:ids as bigint array)) and waits <> :waits
          """)
  void note(long ledgerId, Long[] ids, boolean waits);

  @Query(
      nativeQuery = true,
      value = "select id from part where ledger_id = :ledgerId order by id for update")
  List<Long> lockAll(long ledgerId);

  /** Ask for the lock before, lest a weighing be struck out while it is counted here. */
  @Modifying
  @Query(
      nativeQuery = true,
      value =
          """
          update part set waits = case when exists (
              select 1 from weighing_subject o
              where o.ledger_id = :ledgerId and o.kind = 'part' and o.subject_id = part.id and o.usable = true
                and not exists (select 1 from weighing_void v where v.weighing_id = o.weighing_id))
            then false else true end
          where ledger_id = :ledgerId
          """)
  void noteAll(long ledgerId);
}
