package org.tareline.material;

import jakarta.persistence.LockModeType;
import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface MaterialRepository extends Repository<Material, Long> {

  Material save(Material material);

  void flush();

  Optional<Material> findByLedgerIdAndCodeKey(long ledgerId, String codeKey);

  Optional<Material> findByLedgerIdAndId(long ledgerId, long id);

  @Query("select m.id from Material m where m.ledgerId = :ledgerId and m.codeKey = :codeKey")
  Optional<Long> idOf(long ledgerId, String codeKey);

  /**
   * For changing it: nobody else changes it until this transaction ends. Ask by id, before it is
   * loaded unlocked.
   */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select m from Material m where m.ledgerId = :ledgerId and m.id = :id")
  Optional<Material> lock(long ledgerId, long id);

  List<Material> findByLedgerIdOrderByCodeKey(long ledgerId);

  List<Material> findByLedgerIdAndCodeKeyGreaterThanOrderByCodeKey(
      long ledgerId, String codeKey, Limit limit);

  @Query("select m from Material m where m.ledgerId = :ledgerId and any_of(m.id, :ids)")
  List<Material> byIds(long ledgerId, Long[] ids);

  @Query(
      nativeQuery = true,
      value =
          """
          select m.* from unnest(cast(:codeKeys as varchar array)) as k(code_key)
          join material m on m.ledger_id = :ledgerId and m.code_key = k.code_key
          """)
  List<Material> byCodeKeys(long ledgerId, String[] codeKeys);
}
