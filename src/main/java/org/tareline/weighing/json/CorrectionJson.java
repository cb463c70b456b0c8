package org.tareline.weighing.json;

import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;
import org.tareline.weighing.Weighing;

/**
 * How a check of the scale corrected a weighing.
 *
 * @param check the id of the check
 * @param uncorrected what one piece would weigh without
 * @param slope what that was divided by
 */
public record CorrectionJson(String check, QuantityJson uncorrected, String slope) {

  static CorrectionJson of(Weighing.Correction correction, Unit unit) {
    return new CorrectionJson(
        correction.check().uuid().toString(),
        QuantityJson.of(correction.uncorrected(), unit),
        QuantityJson.plain(correction.slope()));
  }
}
