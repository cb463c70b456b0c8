package org.tareline.rig;

import jakarta.persistence.LockModeType;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;
import org.tareline.part.WhereUsed;

interface RigRepository extends Repository<Rig, Long> {

  /** A line with the rig that has it. */
  record LineOf(long rigId, HeldLine line) {

    LineOf(
        long rigId,
        UUID id,
        @Nullable String part,
        @Nullable String rig,
        String name,
        int quantity,
        String role) {
      this(rigId, new HeldLine(id, part, rig, name, quantity, role));
    }
  }

  Rig save(Rig rig);

  void flush();

  Optional<Rig> findByLedgerIdAndCodeKey(long ledgerId, String codeKey);

  Optional<Rig> findByLedgerIdAndId(long ledgerId, long id);

  @Query("select r.id from Rig r where r.ledgerId = :ledgerId and r.codeKey = :codeKey")
  Optional<Long> idOf(long ledgerId, String codeKey);

  /**
   * For changing it: nobody else changes it until this transaction ends. Ask by id, before it is
   * loaded unlocked.
   */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select r from Rig r where r.ledgerId = :ledgerId and r.id = :id")
  Optional<Rig> lock(long ledgerId, long id);

  /**
   * For changing what holds what: nobody else changes any rig of the ledger until this transaction
   * ends. In one order, so that two who ask do not wait for each other.
   */
  @Query(
      nativeQuery = true,
      value = "select id from rig where ledger_id = :ledgerId order by id for update")
  List<Long> lockAll(long ledgerId);

  List<Rig> findByLedgerIdOrderByCodeKey(long ledgerId);

  @Query("select r from Rig r where r.ledgerId = :ledgerId and any_of(r.id, :ids)")
  List<Rig> byIds(long ledgerId, Long[] ids);

  @Query(
      nativeQuery = true,
      value =
          """
          select r.* from unnest(cast(:codeKeys as varchar array)) as k(code_key)
          join rig r on r.ledger_id = :ledgerId and r.code_key = k.code_key
          """)
  List<Rig> byCodeKeys(long ledgerId, String[] codeKeys);

  /**
   * Those whose code or name holds the text, best fit first: the code itself, its beginning, then
   * the rest by code.
   */
  @Query(
      """
      select r from Rig r
      where r.ledgerId = :ledgerId
        and (r.codeKey like concat('%', :text, '%') escape '\\' or lower(r.name) like concat('%', :text, '%') escape '\\')
      order by
        case when r.codeKey like :text escape '\\' then 0
             when r.codeKey like concat(:text, '%') escape '\\' then 1
             when lower(r.name) like concat(:text, '%') escape '\\' then 2
             else 3 end,
        r.codeKey
      """)
  List<Rig> holding(long ledgerId, String text, Limit limit);

  /** The rig that a rig is a variant of, and those that are variants of it, by code. */
  @Query(
      """
      select r from Rig r
      where r.ledgerId = :ledgerId
        and (r.variantOfId = :id
          or r.id = (select s.variantOfId from Rig s where s.ledgerId = :ledgerId and s.id = :id))
      order by r.codeKey
      """)
  List<Rig> kin(long ledgerId, long id);

  /** The lines of a rig with what they hold. */
  @Query(
      """
      select new org.tareline.rig.HeldLine(l.uuid, p.code, c.code, coalesce(p.name, c.name), l.quantity, l.role)
      from RigLine l
        left join Part p on p.ledgerId = l.ledgerId and p.id = l.partId
        left join Rig c on c.ledgerId = l.ledgerId and c.id = l.childRigId
      where l.ledgerId = :ledgerId and l.rig.id = :rigId
      order by l.position
      """)
  List<HeldLine> linesOf(long ledgerId, long rigId);

  /** The lines of every rig with what they hold. */
  @Query(
      """
      select new org.tareline.rig.RigRepository$LineOf(
        l.rig.id, l.uuid, p.code, c.code, coalesce(p.name, c.name), l.quantity, l.role)
      from RigLine l
        left join Part p on p.ledgerId = l.ledgerId and p.id = l.partId
        left join Rig c on c.ledgerId = l.ledgerId and c.id = l.childRigId
      where l.ledgerId = :ledgerId
      order by l.rig.id, l.position
      """)
  List<LineOf> linesOfLedger(long ledgerId);

  /** Where a part stands in a line of its own. */
  @Query(
      """
      select new org.tareline.part.WhereUsed$Use('rig', r.code, r.name, cast(sum(l.quantity) as int))
      from RigLine l join l.rig r
      where l.ledgerId = :ledgerId and l.partId = :partId
      group by r.id, r.code, r.codeKey, r.name
      order by r.codeKey
      """)
  List<WhereUsed.Use> usesOfPart(long ledgerId, long partId);

  /** Where a rig stands in a line of another. */
  @Query(
      """
      select new org.tareline.part.WhereUsed$Use('rig', r.code, r.name, cast(sum(l.quantity) as int))
      from RigLine l join l.rig r
      where l.ledgerId = :ledgerId and l.childRigId = :rigId
      group by r.id, r.code, r.codeKey, r.name
      order by r.codeKey
      """)
  List<WhereUsed.Use> usesOfRig(long ledgerId, long rigId);

  /** Keys of the codes that a part and a rig both have. */
  @Query(
      """
      select r.codeKey from Rig r join Part p on p.ledgerId = r.ledgerId and p.codeKey = r.codeKey
      where r.ledgerId = :ledgerId
      """)
  List<String> codesOfBoth(long ledgerId);

  /** In which roles each part stands in rigs of the ledger: pairs of part and role. */
  @Query(
      """
      select distinct l.partId, l.role from RigLine l
      where l.ledgerId = :ledgerId and l.partId is not null
      """)
  List<Object[]> rolesOfParts(long ledgerId);

  @Query("select distinct l.role from RigLine l where l.ledgerId = :ledgerId order by l.role")
  List<String> rolesInUse(long ledgerId);

  /** Which rig of the ledger holds which, once for each line: pairs of holder and held. */
  @Query(
      """
      select l.rig.id, l.childRigId from RigLine l
      where l.ledgerId = :ledgerId and l.childRigId is not null
      """)
  List<Object[]> nestings(long ledgerId);

  /** How many lines each rig of the ledger has: pairs of rig and count. */
  @Query("select l.rig.id, count(*) from RigLine l where l.ledgerId = :ledgerId group by l.rig.id")
  List<Object[]> lineCounts(long ledgerId);

  /**
   * These rigs and all that they hold, each once: id, uuid, code, name, revision. The depth limit
   * ends it even if there were a circle; distinct, since a rig may be held by many ways.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          with recursive held(id, depth) as (
            select s.id, 0 from unnest(cast(:rigIds as bigint array)) as s(id)
            union
            select distinct l.child_rig_id, h.depth + 1
            from held h join rig_line l on l.ledger_id = :ledgerId and l.rig_id = h.id
            where l.child_rig_id is not null and h.depth < 60)
          select r.id, cast(r.uuid as varchar(36)), r.code, r.name, r.revision
          from rig r
          where r.ledger_id = :ledgerId and r.id in (select id from held)
          """)
  List<Object[]> reachable(long ledgerId, Long[] rigIds);

  /** The lines of these rigs: rig, uuid, role, quantity, part, child rig. */
  @Query(
      nativeQuery = true,
      value =
          """
          select l.rig_id, cast(l.uuid as varchar(36)), l.role, l.quantity, l.part_id, l.child_rig_id
          from rig_line l join unnest(cast(:rigIds as bigint array)) as s(id) on s.id = l.rig_id
          where l.ledger_id = :ledgerId
          order by l.rig_id, l.position
          """)
  List<Object[]> linesOfAll(long ledgerId, Long[] rigIds);

  /** The rigs that hold a part, directly or through others: id, and by how many steps at least. */
  @Query(
      nativeQuery = true,
      value =
          """
          with recursive holder(id, steps) as (
            select distinct l.rig_id, 1 from rig_line l
            where l.ledger_id = :ledgerId and l.part_id = :partId
            union
            select distinct l.rig_id, h.steps + 1
            from holder h join rig_line l on l.ledger_id = :ledgerId and l.child_rig_id = h.id
            where h.steps < 60)
          select id, min(steps) from holder group by id
          """)
  List<Object[]> holdersOf(long ledgerId, long partId);
}
