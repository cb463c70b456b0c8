package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.rig.Reconciliations;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Explanation;
import org.tareline.rollup.Reconciliation;
import org.tareline.rollup.Reconciliation.Agreement;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;
import org.tareline.weighing.Weighings;
import org.tareline.weighing.json.WeighingJson;

/**
 * A rig weighed whole, held against the sum of its parts.
 *
 * @param rolledUp the parts together, as the rig is now
 * @param whole as weighed; null where it was not weighed whole with this counted
 * @param residual whole − rolled up; null with it
 * @param zeta residual / u(residual); {@code infinite} where a residual has no error
 * @param agrees whether |residual| ≤ U(residual); null where a part without a mass leaves that open
 * @param explanations single causes that would explain it, the best fit first; none where it agrees
 * @param weighing the weighing of the whole
 * @param changedSince whether the rig, or one in it, has been saved since
 */
record ReconciliationJson(
    String rig,
    String scope,
    @Nullable EstimateJson whole,
    EstimateJson rolledUp,
    @Nullable EstimateJson residual,
    @Nullable String zeta,
    @Nullable Boolean agrees,
    List<ExplanationJson> explanations,
    @Nullable WeighingJson weighing,
    boolean changedSince,
    List<String> notes) {

  /**
   * One thing that would explain the residual.
   *
   * @param kind {@code missing}: left off the pan or listed once too often; {@code extra}: on the
   *     pan and not listed; {@code unit}: a reading in grams that were ounces, or back; {@code
   *     digits}: two neighbouring digits of a reading swapped; {@code damp}: the whole was not dry;
   *     {@code water}: water that a known fibre takes up; {@code changed}: repaired, modified or
   *     damaged between the two weighings
   * @param part code of the part it is about; left out where it is about a rig
   * @param rig code of the rig it is about: the whole, or one in it
   * @param line id; left out where several lines hold it, or none
   * @param weighing id of the weighing to look at again; left out where none is in question
   * @param residual what whole minus parts would be if it were true
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ExplanationJson(
      String kind,
      @Nullable String part,
      @Nullable String rig,
      @Nullable String line,
      @Nullable String weighing,
      String sentence,
      EstimateJson residual) {

    static ExplanationJson of(Explanation explanation, Reconciliations.Held held, Unit unit) {
      boolean ofRig = explanation.about() instanceof Assembly;
      String code = explanation.about().code();
      return new ExplanationJson(
          explanation.cause().word(),
          ofRig ? null : code,
          ofRig ? code : null,
          explanation.line(),
          held.weighing(explanation).map(weighing -> weighing.uuid().toString()).orElse(null),
          explanation.sentence(),
          EstimateJson.of(explanation.residual(), unit));
    }
  }

  static ReconciliationJson of(Reconciliations.Held held, Unit unit) {
    Reconciliation reconciliation = held.reconciliation();
    Weighings.Logged whole = held.whole();
    String rig = held.rollUp().assembly().code();
    String scope = held.rollUp().scope().code();
    EstimateJson rolledUp = RollUpJson.estimate(held.rollUp(), unit);
    if (reconciliation == null || whole == null) {
      return new ReconciliationJson(
          rig, scope, null, rolledUp, null, null, null, List.of(), null, false, held.notes());
    }
    return new ReconciliationJson(
        rig,
        scope,
        EstimateJson.of(reconciliation.whole(), Basis.WEIGHED, null, List.of(), unit),
        rolledUp,
        EstimateJson.of(reconciliation.residual(), unit),
        Double.isInfinite(reconciliation.zeta())
            ? "infinite"
            : QuantityJson.plain(reconciliation.zeta()),
        reconciliation.agreement() == Agreement.CANNOT_TELL
            ? null
            : reconciliation.agreement() == Agreement.AGREES,
        reconciliation.explanations().stream()
            .map(explanation -> ExplanationJson.of(explanation, held, unit))
            .toList(),
        WeighingJson.of(whole, reconciliation.whole(), false, unit),
        held.changedSince(),
        held.notes());
  }
}
