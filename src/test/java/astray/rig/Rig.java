package astray.rig;

import astray.rig.web.RigPage;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;

/** An entity with a setter, which knows the page it is shown on. */
@Entity
public class Rig {

  @Id private long id;
  private String name;

  public void setName(String name) {
    this.name = name;
  }

  RigPage page() {
    return new RigPage();
  }
}
