package org.tareline.weighing.json;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.TermJson;
import org.tareline.units.Unit;
import org.tareline.weighing.Reading;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * A weighing in an answer.
 *
 * @param scale the scale's code; left out where it was not recorded
 * @param tolerance how sure it is, as typed, where the scale was not recorded
 * @param readings as typed; a bare number is in the unit of the scale
 * @param before readings of what it was sewn onto, before, as typed; left out where there are none
 * @param tare as typed
 * @param count of alike pieces on the pan
 * @param piece label of the piece, where pieces are weighed one by one
 * @param together true, or left out: other things lay on the pan, and the estimate is of all of
 *     them
 * @param voided whether it was struck out
 * @param voidReason why
 * @param counts whether it is what its subject's mass comes from
 * @param estimate the mass of one piece by this weighing
 * @param correction how a check of the scale corrected it; left out where none was in force
 * @param repeatabilityKnown false where there is one reading and the scale has no repeatability on
 *     record, so that nothing is said of how well readings repeat; left out where the scale was not
 *     recorded
 * @param flaggedReadings readings that stand apart from the others
 * @param terms what makes up the variance of the estimate
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record WeighingJson(
    String id,
    @Nullable String scale,
    @Nullable String tolerance,
    List<String> readings,
    @Nullable List<String> before,
    @Nullable String tare,
    int count,
    @Nullable String piece,
    @Nullable Boolean together,
    String condition,
    @Nullable String note,
    String weighedAt,
    String enteredAt,
    boolean voided,
    @Nullable String voidReason,
    boolean counts,
    EstimateJson estimate,
    @Nullable CorrectionJson correction,
    @Nullable Boolean repeatabilityKnown,
    List<FlaggedReadingJson> flaggedReadings,
    List<TermJson> terms) {

  /**
   * @param estimate what it says of its subject
   */
  public static WeighingJson of(
      Weighings.Logged logged, Estimate estimate, boolean counts, Unit unit) {
    Weighing weighing = logged.weighing();
    return new WeighingJson(
        weighing.uuid().toString(),
        weighing.scale().map(Scale::code).orElse(null),
        weighing.toleranceTyped().orElse(null),
        weighing.readings().stream().map(Reading::typed).toList(),
        weighing.before().isEmpty()
            ? null
            : weighing.before().stream().map(Reading::typed).toList(),
        weighing.tareTyped().orElse(null),
        weighing.pieceCount(),
        logged.placed().piece(),
        logged.together() ? true : null,
        weighing.condition().word(),
        weighing.note().orElse(null),
        weighing.weighedAt().toString(),
        weighing.enteredAt().toString(),
        logged.voidReason() != null,
        logged.voidReason(),
        counts,
        EstimateJson.of(estimate, Basis.WEIGHED, 0, List.of(), unit),
        weighing.correction().map(correction -> CorrectionJson.of(correction, unit)).orElse(null),
        weighing.repeatabilityKnown().orElse(null),
        FlaggedReadingJson.of(weighing, unit),
        TermJson.of(estimate, unit));
  }
}
