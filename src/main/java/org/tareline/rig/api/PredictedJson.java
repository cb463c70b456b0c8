package org.tareline.rig.api;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import org.tareline.rollup.MassStatement;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Mass;
import org.tareline.units.Unit;

/**
 * What a mass will be once all is weighed, held against a target.
 *
 * @param basicMass the best that is known now
 * @param growthAllowance what the ledger's settings allow for what is not weighed
 * @param predictedMass basic + allowance
 * @param margin target − predicted, below nothing where it is over
 * @param marginOfTarget the margin in per cent of the target
 * @param marginOfPredicted the margin in per cent of the predicted mass; null where that is nothing
 */
record PredictedJson(
    QuantityJson basicMass,
    QuantityJson growthAllowance,
    QuantityJson predictedMass,
    QuantityJson margin,
    QuantityJson marginOfTarget,
    @Nullable QuantityJson marginOfPredicted) {

  /** Null where there is no target to hold it against. */
  static @Nullable PredictedJson of(MassStatement statement, Unit unit) {
    Mass margin = statement.margin();
    QuantityJson ofTarget = percent(statement.marginOfTarget());
    return margin == null || ofTarget == null
        ? null
        : new PredictedJson(
            QuantityJson.of(statement.basic(), unit),
            QuantityJson.of(statement.growthAllowance(), unit),
            QuantityJson.of(statement.predicted(), unit),
            QuantityJson.of(margin, unit),
            ofTarget,
            percent(statement.marginOfPredicted()));
  }

  private static @Nullable QuantityJson percent(@Nullable BigDecimal percent) {
    return percent == null
        ? null
        : new QuantityJson(
            percent.signum() == 0 ? "0" : percent.stripTrailingZeros().toPlainString(), "%");
  }
}
