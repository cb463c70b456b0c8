package org.tareline.weighing;

import java.util.Optional;
import org.springframework.data.jpa.repository.EntityGraph;
import org.springframework.data.repository.Repository;

interface KeyedEntryRepository extends Repository<KeyedEntry, Long> {

  KeyedEntry save(KeyedEntry entry);

  @EntityGraph(attributePaths = "weighing")
  Optional<KeyedEntry> findByLedgerIdAndKey(long ledgerId, String key);
}
