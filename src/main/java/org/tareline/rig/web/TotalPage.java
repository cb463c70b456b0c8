package org.tareline.rig.web;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.OpenTotals;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.SumTable;
import org.tareline.units.MassStyle;

/**
 * The total of a rig, or of one of its roles, as the sum of its parts.
 *
 * @param of what the total is of, as {@code Body}
 */
record TotalPage(
    String code, String name, String scope, String counted, String of, SumTable table) {

  /**
   * The total of a role, or of all of them.
   *
   * @throws NotThere if nothing that is counted has the role
   */
  static TotalPage of(RollUp rollUp, @Nullable String role, MassStyle style) {
    String named = role == null || role.isBlank() ? null : Roles.normalise(role);
    List<Leaf> leaves =
        rollUp.leaves().stream()
            .filter(leaf -> named == null || leaf.line().role().equals(named))
            .toList();
    if (named != null && leaves.isEmpty()) {
      throw new NotThere("role as " + Faults.shortened(named));
    }
    return new TotalPage(
        rollUp.assembly().code(),
        rollUp.assembly().name(),
        rollUp.scope().code(),
        rollUp.scope().name(),
        named == null
            ? "Everything"
            : named.substring(0, 1).toUpperCase(Locale.ROOT) + named.substring(1),
        OpenTotals.sum(leaves, Piece::code, style));
  }
}
