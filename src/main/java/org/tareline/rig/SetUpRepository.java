package org.tareline.rig;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface SetUpRepository extends Repository<SetUp, Long> {

  SetUp save(SetUp setUp);

  void flush();

  /** The favourite first, then the newest. */
  List<SetUp> findByLedgerIdAndRigIdOrderByFavouriteDescHungOnDescIdDesc(long ledgerId, long rigId);

  Optional<SetUp> findByLedgerIdAndRigIdAndUuid(long ledgerId, long rigId, UUID uuid);
}
