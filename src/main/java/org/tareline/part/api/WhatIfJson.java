package org.tareline.part.api;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.part.Part;
import org.tareline.part.WhatIf;
import org.tareline.part.json.CostChangeJson;
import org.tareline.part.json.StrengthChangeJson;
import org.tareline.site.json.EstimateJson;
import org.tareline.units.Unit;

/**
 * A part as it would be with other materials. What is weaker stands before what is lighter.
 *
 * @param strength of each material that is replaced
 * @param before calculated, by the cut list as it is
 * @param after calculated, by the same with the other materials
 * @param difference after − before; what is the same in both cancels, error and all
 * @param verdict of the second against the first: {@code lighter}, {@code heavier} or {@code
 *     undecided}
 * @param now what the part weighs by the best evidence there is; null where nothing is known
 * @param then that, and the difference
 * @param how the one comes from the other
 * @param materials what it takes of the materials that are swapped
 */
record WhatIfJson(
    String part,
    List<StrengthChangeJson> strength,
    EstimateJson before,
    EstimateJson after,
    EstimateJson difference,
    String verdict,
    @Nullable EstimateJson now,
    @Nullable EstimateJson then,
    String how,
    CostChangeJson cost,
    MaterialsJson materials,
    List<String> notes) {

  record MaterialsJson(List<CalculatedJson.NeedJson> before, List<CalculatedJson.NeedJson> after) {}

  static WhatIfJson of(WhatIf whatIf, Unit unit) {
    Part part = whatIf.part();
    Basis basis = whatIf.now().basis();
    return new WhatIfJson(
        part.code(),
        whatIf.swaps().stream().map(StrengthChangeJson::of).toList(),
        calculated(whatIf.before().estimate(), unit),
        calculated(whatIf.after().estimate(), unit),
        EstimateJson.of(whatIf.difference(), unit),
        Verdict.of(whatIf.difference()).word(),
        estimate(whatIf.now().estimate(), basis, unit),
        estimate(whatIf.then(), basis == null ? null : Basis.of(basis, Basis.CALCULATED), unit),
        whatIf.how(),
        CostChangeJson.of(whatIf.cost()),
        new MaterialsJson(
            whatIf.needsBefore().stream()
                .map(need -> CalculatedJson.need(need, null, unit))
                .toList(),
            whatIf.needsAfter().stream()
                .map(need -> CalculatedJson.need(need, null, unit))
                .toList()),
        whatIf.notes());
  }

  private static EstimateJson calculated(Estimate estimate, Unit unit) {
    return EstimateJson.of(estimate, Basis.CALCULATED, 1, List.of(), unit);
  }

  private static @Nullable EstimateJson estimate(
      @Nullable Estimate estimate, @Nullable Basis basis, Unit unit) {
    return estimate == null
        ? null
        : EstimateJson.of(estimate, basis, basis == Basis.WEIGHED ? 0 : 1, List.of(), unit);
  }
}
