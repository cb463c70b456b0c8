package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rig.Cautions;
import org.tareline.rig.LoadsBeside;
import org.tareline.rig.RigLoad;
import org.tareline.rollup.Comparison;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.site.json.EstimateJson;
import org.tareline.units.Unit;

/**
 * Rigs side by side under one scope.
 *
 * @param first code of the rig that the others are compared with
 * @param second code of the rig that is compared with it
 * @param roles by the role of the line that holds the part
 * @param strength for what they carry; left out where nobody has said how either is hung
 * @param others each further rig compared with the first; left out where there are two
 */
record CompareJson(
    String scope,
    String first,
    String second,
    PairJson total,
    List<RoleJson> roles,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable StrengthJson strength,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable List<OtherJson> others) {

  /**
   * Two figures and their difference.
   *
   * @param difference b − a; what both share cancels, error and all
   * @param verdict of the second against the first: {@code lighter}, {@code heavier}, or {@code
   *     undecided} where the difference is within its uncertainty or what has no mass yet differs
   */
  record PairJson(EstimateJson a, EstimateJson b, EstimateJson difference, String verdict) {}

  /**
   * As {@link PairJson}, for one role.
   *
   * @param a null where the first has no line of this role, which counts as nothing
   * @param b null where the second has none
   */
  record RoleJson(
      String role,
      @Nullable EstimateJson a,
      @Nullable EstimateJson b,
      EstimateJson difference,
      String verdict) {}

  /**
   * How strong both are as they are hung.
   *
   * @param a null where nobody has said how the first is hung
   * @param b null where nobody has said how the second is hung
   * @param verdict of the second against the first, by the least that is known of each: {@code
   *     weaker}, {@code as-strong}, {@code stronger} or {@code not-known}
   */
  record StrengthJson(
      @Nullable HeldJson a, @Nullable HeldJson b, String verdict, List<String> cautions) {

    static @Nullable StrengthJson of(@Nullable LoadsBeside loads) {
      return loads == null
          ? null
          : new StrengthJson(
              loads.a() == null ? null : HeldJson.of(loads.a()),
              loads.b() == null ? null : HeldJson.of(loads.b()),
              loads.verdict().word(),
              Cautions.ALL);
    }
  }

  /** A further rig, compared with the first. */
  record OtherJson(
      String second,
      PairJson total,
      List<RoleJson> roles,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable StrengthJson strength) {}

  /**
   * Compares each with the first.
   *
   * @param rollUps two or more, under one scope
   * @param known loads by the code of the rig, of those of which it is said how they are hung
   */
  static CompareJson of(List<RollUp> rollUps, Map<String, RigLoad> known, Unit unit) {
    RollUp first = rollUps.get(0);
    List<OtherJson> others =
        rollUps.stream().skip(1).map(other -> against(first, other, known, unit)).toList();
    OtherJson second = others.get(0);
    return new CompareJson(
        first.scope().code(),
        first.assembly().code(),
        second.second(),
        second.total(),
        second.roles(),
        second.strength(),
        others.size() == 1 ? null : others.subList(1, others.size()));
  }

  private static OtherJson against(
      RollUp first, RollUp second, Map<String, RigLoad> known, Unit unit) {
    Comparison comparison = Comparison.of(first, second);
    List<Leaf> leavesOfFirst = first.leaves();
    List<Leaf> leavesOfSecond = second.leaves();
    Comparison.Pair total = comparison.total();
    return new OtherJson(
        second.assembly().code(),
        new PairJson(
            RollUpJson.estimate(first, unit),
            RollUpJson.estimate(second, unit),
            EstimateJson.of(total.difference(), unit),
            total.verdict().word()),
        comparison.roles().entrySet().stream()
            .map(
                role ->
                    new RoleJson(
                        role.getKey(),
                        side(role.getValue().a(), role.getKey(), leavesOfFirst, unit),
                        side(role.getValue().b(), role.getKey(), leavesOfSecond, unit),
                        EstimateJson.of(role.getValue().difference(), unit),
                        role.getValue().verdict().word()))
            .toList(),
        StrengthJson.of(
            LoadsBeside.of(
                known.get(first.assembly().code()), known.get(second.assembly().code()))));
  }

  private static @Nullable EstimateJson side(
      @Nullable Estimate sum, String role, List<Leaf> leaves, Unit unit) {
    if (sum == null) {
      return null;
    }
    List<Piece> pieces =
        leaves.stream().filter(leaf -> leaf.line().role().equals(role)).map(Leaf::piece).toList();
    return EstimateJson.of(
        sum,
        pieces.stream().map(Piece::basis).filter(Objects::nonNull).reduce(Basis::of).orElse(null),
        (int) pieces.stream().filter(piece -> piece.basis() != Basis.WEIGHED).count(),
        pieces.stream().filter(piece -> piece.each() == null).map(Piece::code).distinct().toList(),
        unit);
  }
}
