package org.tareline.material;

import java.util.List;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;

/** Told by whoever cuts things from materials. Declared here, where it is shown. */
public interface CutFrom {

  /**
   * A thing that has a cut list and was weighed once it was made.
   *
   * @param calculated what its cut list comes to, every material taken as printed or as its
   *     swatches weigh, whatever was learned since
   * @param ofMaterial how much of that is the material
   * @param weighed by the scale alone
   */
  record Made(
      String code, String name, Estimate calculated, Estimate ofMaterial, Estimate weighed) {}

  /** What was made of a material, by code. */
  List<Made> madeOf(Member member, Material material);
}
