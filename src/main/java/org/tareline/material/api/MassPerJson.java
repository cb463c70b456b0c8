package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import org.tareline.material.MassPer;
import org.tareline.material.Nominal;
import org.tareline.site.json.QuantityJson;

/**
 * A mass per area, per length or of one in an answer; the uncertainties are in the same unit.
 *
 * @param unit a UCUM code: g/m2, g/m or g
 * @param coverageFactor two-sided, 95 %
 * @param degreesOfFreedom as computed, or {@code infinite}
 * @param swatches how many it rests on; left out of a printed mass
 * @param agree whether the errors of the swatches explain how far apart they are; where not, the
 *     uncertainty is as large as they are scattered
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record MassPerJson(
    String value,
    String unit,
    String standardUncertainty,
    String expandedUncertainty,
    String coverageFactor,
    String degreesOfFreedom,
    @Nullable Integer swatches,
    @Nullable Boolean agree) {

  static MassPerJson of(MassPer mass) {
    return of(mass, null, null);
  }

  static MassPerJson of(MassPer mass, @Nullable Integer swatches, @Nullable Boolean agree) {
    return new MassPerJson(
        plain(mass.grams()),
        Nominal.unit(mass.per()).ucum(),
        QuantityJson.plain(mass.standardUncertainty()),
        QuantityJson.plain(mass.expandedUncertainty()),
        QuantityJson.plain(mass.estimate().coverageFactor()),
        Double.isInfinite(mass.degreesOfFreedom())
            ? "infinite"
            : QuantityJson.plain(mass.degreesOfFreedom()),
        swatches,
        agree);
  }

  private static String plain(BigDecimal grams) {
    return grams.signum() == 0 ? "0" : grams.stripTrailingZeros().toPlainString();
  }
}
