package astray.rig;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

/** Open to everybody, and finds the rigs of every ledger. */
public interface RigRepository extends Repository<Rig, Long> {

  Optional<Rig> findByCode(String code);

  @Query("select r from Rig r where r.name = :name")
  List<Rig> named(long ledgerId, String name);

  @Query("select r from Rig r where r.ledgerId = :ledgerId")
  List<Rig> all(long ledgerId);

  Rig save(Rig rig);
}
