package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import io.swagger.v3.oas.annotations.media.ArraySchema;
import io.swagger.v3.oas.annotations.media.Schema;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Pieces;
import org.tareline.material.OnHand;
import org.tareline.part.Calculation;
import org.tareline.part.Comfort;
import org.tareline.part.Part;
import org.tareline.part.PartEvidence;
import org.tareline.part.PartMass;
import org.tareline.part.PartVariants;
import org.tareline.part.json.PackedSizeJson;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TermJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.units.Mass;
import org.tareline.units.Unit;
import org.tareline.weighing.json.WeighingJson;

/**
 * A part in an answer.
 *
 * @param stated left out where nothing is stated
 * @param fibre left out where it is not known
 * @param strength stated of the part itself; left out, with its kind, where it is not
 * @param packedVolume the room it takes in a pack; left out, as the length, where it is not known
 * @param variantOf code of the part that it is a variant of; left out where it is none, and of
 *     lists
 * @param variants codes of its variants; left out where there are none, and of lists
 * @param estimate of one piece; null where nothing is known
 * @param lent how many of those owned are lent; left out where none are, and of lists
 * @param pieces where pieces of it were weighed one by one
 * @param buildSheet its cut list; left out where it has none, and of lists
 * @param calculated what that comes to
 * @param calculatedAgainstWeighed where it has a cut list and was weighed
 * @param evidence every weighing, newest first, and then the stated mass; left out of lists
 * @param olderEvidence true, or left out: there are weighings older than those under evidence
 */
record PartJson(
    String code,
    String name,
    String system,
    int owned,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Integer lent,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable StatedJson stated,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String fibre,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable TypedQuantityJson strength,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String strengthKind,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable ComfortJson comfortTemperature,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable TypedQuantityJson packedVolume,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable TypedQuantityJson packedLength,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String note,
    int revision,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String variantOf,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> variants,
    @Nullable EstimateJson estimate,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable PiecesJson pieces,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable CutListJson buildSheet,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable CalculatedJson calculated,
    @JsonInclude(JsonInclude.Include.NON_NULL)
        CalculatedJson.@Nullable AgainstJson calculatedAgainstWeighed,
    @JsonInclude(JsonInclude.Include.NON_NULL)
        @ArraySchema(schema = @Schema(oneOf = {WeighingJson.class, StatedEvidenceJson.class}))
        @Nullable List<Object> evidence,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Boolean olderEvidence) {

  /**
   * A stated mass.
   *
   * @param tolerance as typed; left out where the ledger's own serves
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record StatedJson(TypedQuantityJson mass, @Nullable String tolerance) {

    static @Nullable StatedJson of(Part part, Unit unit) {
      Mass mass = part.stated().orElse(null);
      String typed = part.statedTyped().orElse(null);
      return mass == null || typed == null
          ? null
          : new StatedJson(
              TypedQuantityJson.of(mass, typed, unit), part.statedToleranceTyped().orElse(null));
    }
  }

  /**
   * Pieces that were weighed one by one.
   *
   * @param weighed how many
   * @param spread standard deviation of their masses; left out where one was weighed
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record PiecesJson(int weighed, QuantityJson mean, @Nullable QuantityJson spread) {

    static @Nullable PiecesJson of(PartMass mass, Unit unit) {
      Pieces pieces = mass.pieces();
      return pieces == null
          ? null
          : new PiecesJson(
              pieces.weighed(),
              QuantityJson.of(pieces.mean(), unit),
              pieces.spreadInGrams().isEmpty()
                  ? null
                  : QuantityJson.ofComputedGrams(pieces.spreadInGrams().getAsDouble(), unit));
    }
  }

  /**
   * A stated mass as evidence.
   *
   * @param counts whether the part's mass is this one
   */
  record StatedEvidenceJson(
      StatedJson stated, boolean counts, EstimateJson estimate, List<TermJson> terms) {}

  /** How cold a night a thing is stated for; each left out where it is not known. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ComfortJson(
      @Nullable TypedQuantityJson temperature, @Nullable String kind, @Nullable String insulates) {

    static ComfortJson of(Comfort comfort) {
      Comfort.Entry typed = comfort.entry();
      return new ComfortJson(
          comfort.temperature() == null || typed.temperature() == null
              ? null
              : TypedQuantityJson.of(comfort.temperature(), typed.temperature()),
          typed.kind(),
          typed.insulates());
    }
  }

  private static final PartVariants.Kin NO_KIN = new PartVariants.Kin(null, List.of());

  /** A part in a list. */
  static PartJson of(Part part, PartMass mass, Unit unit) {
    return of(part, mass, 0, NO_KIN, null, Map.of(), null, null, unit);
  }

  /** A part by itself. */
  static PartJson of(Part part, PartEvidence known, PartVariants.Kin kin, Unit unit) {
    List<Object> evidence = new ArrayList<>();
    known
        .weighings()
        .forEach(
            logged ->
                evidence.add(
                    WeighingJson.of(logged, known.estimate(logged), known.counts(logged), unit)));
    StatedJson stated = StatedJson.of(part, unit);
    Estimate estimate = known.stated().estimate();
    if (stated != null && estimate != null) {
      evidence.add(
          new StatedEvidenceJson(
              stated,
              known.statedCounts(),
              estimate(estimate, Basis.ESTIMATED, unit),
              TermJson.of(estimate, unit)));
    }
    return of(
        part,
        known.mass(),
        known.lent(),
        kin,
        known.calculation(),
        known.onHand(),
        evidence,
        known.older() ? true : null,
        unit);
  }

  private static PartJson of(
      Part part,
      PartMass mass,
      int lent,
      PartVariants.Kin kin,
      @Nullable Calculation calculation,
      Map<Long, OnHand> onHand,
      @Nullable List<Object> evidence,
      @Nullable Boolean olderEvidence,
      Unit unit) {
    return new PartJson(
        part.code(),
        part.name(),
        part.system().word(),
        part.owned(),
        lent == 0 ? null : lent,
        StatedJson.of(part, unit),
        part.fibre().map(Fibre::word).orElse(null),
        part.strength()
            .map(strength -> TypedQuantityJson.of(strength.force(), strength.force().text()))
            .orElse(null),
        part.strength().map(strength -> strength.kind().word()).orElse(null),
        part.comfort().map(ComfortJson::of).orElse(null),
        PackedSizeJson.volume(part.packed()),
        PackedSizeJson.length(part.packed()),
        part.note().orElse(null),
        part.revision(),
        kin.original() == null ? null : kin.original().code(),
        kin.variants().stream().map(Part::code).toList(),
        mass.estimate() == null ? null : estimate(mass.estimate(), mass.basis(), unit),
        PiecesJson.of(mass, unit),
        CutListJson.of(part, calculation, unit),
        calculation == null ? null : CalculatedJson.of(calculation, onHand, unit),
        calculation == null || mass.estimate() == null || mass.basis() != Basis.WEIGHED
            ? null
            : CalculatedJson.AgainstJson.of(calculation.calculated(), mass.estimate(), unit),
        evidence,
        olderEvidence);
  }

  private static EstimateJson estimate(Estimate estimate, @Nullable Basis basis, Unit unit) {
    return EstimateJson.of(estimate, basis, basis == Basis.WEIGHED ? 0 : 1, List.of(), unit);
  }
}
