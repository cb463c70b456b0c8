package org.tareline.weighing;

import org.springframework.data.repository.Repository;

interface PanRepository extends Repository<OnThePan, Long> {

  OnThePan save(OnThePan onThePan);
}
