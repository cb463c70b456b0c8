package org.tareline.rig.api;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.part.Part;
import org.tareline.part.Strength;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.part.json.CostChangeJson;
import org.tareline.part.json.StrengthChangeJson;
import org.tareline.rig.Cautions;
import org.tareline.rig.LoadsChange;
import org.tareline.rig.RigWhatIf;
import org.tareline.rollup.Piece;
import org.tareline.site.json.EstimateJson;
import org.tareline.units.Unit;

/**
 * A rig as it would be with other materials or parts. What is weaker stands before what is lighter.
 *
 * @param scope code of what is counted
 * @param strength of each material that is replaced
 * @param loads what that does to what holds as it is hung; null where nobody has said how it is
 *     hung
 * @param before the total as it is
 * @param after null where nothing is known of what an exchanged part weighs, as the difference is
 * @param difference after − before; what stays cancels, error and all
 * @param verdict of the second against the first: {@code lighter}, {@code heavier} or {@code
 *     undecided}
 * @param cost of the changed parts, as if each were cut by itself; parts have no price
 * @param parts counted parts that have one of the materials in their cut list
 * @param exchanged counted parts in whose place others stand
 * @param withoutCutList codes of counted parts of which it is not known what they are made of
 */
record RigWhatIfJson(
    String rig,
    String scope,
    List<StrengthChangeJson> strength,
    @Nullable LoadsChangeJson loads,
    EstimateJson before,
    @Nullable EstimateJson after,
    @Nullable EstimateJson difference,
    String verdict,
    CostChangeJson cost,
    List<ChangedJson> parts,
    List<ExchangeJson> exchanged,
    List<String> withoutCutList) {

  /**
   * A part that is changed, all that are counted of it together.
   *
   * @param count how many are counted
   * @param before what they weigh by the best evidence there is; null where nothing is known
   * @param after that, and the difference
   * @param difference calculated after − calculated before
   * @param how the one comes from the other
   * @param calculated by its cut list, before and after, of one
   */
  record ChangedJson(
      String part,
      String name,
      long count,
      @Nullable EstimateJson before,
      @Nullable EstimateJson after,
      EstimateJson difference,
      String verdict,
      String how,
      CalculatedPairJson calculated,
      List<String> notes) {

    static ChangedJson of(RigWhatIf.Changed changed, Unit unit) {
      WhatIf whatIf = changed.whatIf();
      Basis basis = whatIf.now().basis();
      Estimate now = whatIf.now().estimate();
      Estimate then = whatIf.then();
      Estimate difference = changed.difference();
      return new ChangedJson(
          whatIf.part().code(),
          whatIf.part().name(),
          changed.count(),
          now == null ? null : estimate(now.times(changed.count()), basis, unit),
          then == null || basis == null
              ? null
              : estimate(then.times(changed.count()), Basis.of(basis, Basis.CALCULATED), unit),
          EstimateJson.of(difference, unit),
          Verdict.of(difference).word(),
          whatIf.how(),
          new CalculatedPairJson(
              estimate(whatIf.before().estimate(), Basis.CALCULATED, unit),
              estimate(whatIf.after().estimate(), Basis.CALCULATED, unit)),
          whatIf.notes());
    }
  }

  record CalculatedPairJson(EstimateJson before, EstimateJson after) {}

  /**
   * A part in the place of another, all that are counted together.
   *
   * @param before null where it is not known what the old one weighs
   * @param after null where it is not known what the new one weighs
   * @param strength {@code weaker}, {@code as-strong} or {@code stronger}, of one kind of strength;
   *     {@code not-comparable} of two, {@code not-known} where either is not known
   */
  record ExchangeJson(
      String replaced,
      String by,
      long count,
      @Nullable EstimateJson before,
      @Nullable EstimateJson after,
      @Nullable EstimateJson difference,
      String strength) {

    static ExchangeJson of(RigWhatIf.Exchange exchange, Unit unit) {
      Estimate difference = exchange.difference();
      return new ExchangeJson(
          exchange.from().code(),
          exchange.to().code(),
          exchange.count(),
          exchange.was() == null ? null : EstimateJson.of(exchange.was(), unit),
          exchange.is() == null ? null : EstimateJson.of(exchange.is(), unit),
          difference == null ? null : EstimateJson.of(difference, unit),
          strength(exchange.held(), exchange.holds()).word());
    }

    private static Swap.Holds strength(@Nullable Strength was, @Nullable Strength is) {
      if (was == null || is == null) {
        return Swap.Holds.NOT_KNOWN;
      }
      if (was.kind() != is.kind()) {
        return Swap.Holds.NOT_COMPARABLE;
      }
      int more = is.force().force().compareTo(was.force().force());
      return more < 0 ? Swap.Holds.WEAKER : more > 0 ? Swap.Holds.STRONGER : Swap.Holds.AS_STRONG;
    }
  }

  /**
   * What holds as the rig is hung, before and after.
   *
   * @param dropsBelow whether something drops below what is wanted of it
   * @param words the same, the worst first
   */
  record LoadsChangeJson(
      boolean dropsBelow, String words, HeldJson before, HeldJson after, List<String> cautions) {

    static @Nullable LoadsChangeJson of(@Nullable LoadsChange loads) {
      return loads == null
          ? null
          : new LoadsChangeJson(
              loads.dropsBelow(),
              loads.words(),
              HeldJson.of(loads.before()),
              HeldJson.of(loads.after()),
              Cautions.ALL);
    }
  }

  static RigWhatIfJson of(RigWhatIf whatIf, Unit unit) {
    Estimate after = whatIf.after();
    Estimate difference = whatIf.difference();
    return new RigWhatIfJson(
        whatIf.before().assembly().code(),
        whatIf.before().scope().code(),
        whatIf.swaps().stream().map(StrengthChangeJson::of).toList(),
        LoadsChangeJson.of(whatIf.loads()),
        RollUpJson.estimate(whatIf.before(), unit),
        after == null
            ? null
            : EstimateJson.of(
                after,
                null,
                null,
                whatIf.before().missing().stream().map(Piece::code).toList(),
                unit),
        difference == null ? null : EstimateJson.of(difference, unit),
        whatIf.verdict().word(),
        CostChangeJson.of(whatIf.cost()),
        whatIf.parts().stream().map(changed -> ChangedJson.of(changed, unit)).toList(),
        whatIf.exchanges().stream().map(exchange -> ExchangeJson.of(exchange, unit)).toList(),
        whatIf.withoutList().stream().map(Part::code).toList());
  }

  private static EstimateJson estimate(Estimate estimate, @Nullable Basis basis, Unit unit) {
    return EstimateJson.of(estimate, basis, basis == Basis.WEIGHED ? 0 : 1, List.of(), unit);
  }
}
