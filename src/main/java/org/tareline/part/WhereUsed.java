package org.tareline.part;

import java.util.List;
import org.tareline.ledger.Member;

/** Told by whoever uses parts: what a part is used in. Declared here, where it is shown. */
public interface WhereUsed {

  /**
   * One use of a part.
   *
   * @param kind {@code rig} or {@code trip}
   * @param quantity how many of it
   */
  record Use(String kind, String code, String name, int quantity) {}

  /** Where a part stands as a line of its own, by code. */
  List<Use> usesOf(Member member, long partId);
}
