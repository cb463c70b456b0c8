package org.tareline.material;

import java.math.BigDecimal;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;

/** Told by whoever cuts things from materials. Declared here, where it is shown. */
public interface CutFrom {

  /** A thing that is cut from materials. */
  record Named(long id, String code, String name) {}

  /**
   * That a cut list uses a material.
   *
   * @param ofMaterial how much of the mass of one is the material, as cut lists use it
   * @param needs how much of the stock one takes; null where that is not known
   */
  record Use(Named thing, Estimate ofMaterial, @Nullable BigDecimal needs) {}

  /**
   * A thing that has a cut list and was weighed once it was made.
   *
   * @param calculated what its cut list comes to, every material taken as printed or as its
   *     swatches weigh, whatever was learned since
   * @param ofMaterial how much of that is the material
   * @param weighed by the scale alone
   */
  record Made(Named thing, Estimate calculated, Estimate ofMaterial, Estimate weighed) {}

  /** What was made of a material, by code. */
  List<Made> madeOf(Member member, Material material);

  /** Where a material is used, by code. */
  List<Use> usesOf(Member member, Material material);

  /** Why something that is cut from a material cannot be, as the material stands now. */
  Optional<String> unfit(Member member, Material material);

  /** The thing with this code. */
  Optional<Named> find(Member member, String code);

  /** The things in these rows. */
  Map<Long, Named> named(Member member, Collection<Long> ids);
}
