package org.tareline.ledger;

import org.springframework.data.repository.Repository;

interface RevisionRepository extends Repository<Revision, Long> {

  Revision save(Revision revision);
}
