package org.tareline.material;

import jakarta.persistence.LockModeType;
import java.util.Collection;
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

  List<Material> findByLedgerIdAndIdIn(long ledgerId, Collection<Long> ids);

  List<Material> findByLedgerIdAndCodeKeyIn(long ledgerId, Collection<String> codeKeys);
}
