package org.tareline.weighing;

import org.springframework.data.repository.Repository;

interface CheckVoidingRepository extends Repository<CheckVoiding, Long> {

  CheckVoiding save(CheckVoiding voiding);
}
