package org.tareline.rig;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface SetUpRepository extends Repository<SetUp, Long> {

  SetUp save(SetUp setUp);

  void flush();

  /** The favourite first, then the newest. */
  List<SetUp> findByLedgerIdAndRigIdOrderByFavouriteDescHungOnDescIdDesc(long ledgerId, long rigId);

  @Query("select s from SetUp s where s.ledgerId = :ledgerId and any_of(s.id, :ids)")
  List<SetUp> byIds(long ledgerId, Long[] ids);

  /** How many favourites a rig has. */
  long countByLedgerIdAndRigIdAndFavouriteTrue(long ledgerId, long rigId);

  Optional<SetUp> findByLedgerIdAndRigIdAndUuid(long ledgerId, long rigId, UUID uuid);
}
