package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Entry;
import org.tareline.rollup.Omission;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;

/**
 * The total of a rig under a scope, with what it is made of.
 *
 * @param scope code of what is counted
 * @param revision of the rig
 * @param lines what is counted; each estimate is of what the line adds to this total, and the lines
 *     of a nested rig add up to its own
 * @param omitted what the scope leaves out, each with all it holds
 * @param predicted held against a target; left out where none is named
 */
record RollUpJson(
    String rig,
    String name,
    String scope,
    int revision,
    EstimateJson estimate,
    List<LineJson> lines,
    List<OmissionJson> omitted,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable PredictedJson predicted) {

  /**
   * A counted line.
   *
   * @param line its id
   * @param part code; left out where the line holds a rig
   * @param rig code; left out where the line holds a part
   * @param quantity in the rig that holds the line
   * @param count how many of it are in the total by this way: the quantities multiplied
   * @param estimate of all of them; null where nothing in it has a mass
   * @param shareOfMass of the whole total, 0 to 1
   * @param shareOfVariance of the variance of the whole total; those of all lines add up to 1, and
   *     one may be negative
   * @param basis null where nothing in it has a mass
   * @param lines of a nested rig; left out for a part
   */
  record LineJson(
      String line,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String part,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String rig,
      String name,
      String role,
      int quantity,
      long count,
      @Nullable EstimateJson estimate,
      String shareOfMass,
      String shareOfVariance,
      @Nullable String basis,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable List<LineJson> lines) {}

  /**
   * A line that the scope leaves out, with all it holds.
   *
   * @param path codes of the rigs that lead to it, from the whole down to the one that holds it
   * @param count how many of it would be in the total
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record OmissionJson(
      List<String> path,
      String line,
      @Nullable String part,
      @Nullable String rig,
      String name,
      String role,
      int quantity,
      long count) {

    static OmissionJson of(Omission omission) {
      Content content = omission.line().content();
      return new OmissionJson(
          omission.path(),
          omission.line().id(),
          code(content, Piece.class),
          code(content, Assembly.class),
          content.name(),
          omission.line().role(),
          omission.line().quantity(),
          omission.multiplicity());
    }
  }

  static RollUpJson of(RollUp rollUp, int revision, @Nullable PredictedJson predicted, Unit unit) {
    List<LineJson> lines = new ArrayList<>();
    for (Entry entry : rollUp.lines()) {
      lines.add(line(entry, new LinkedHashSet<>(), unit));
    }
    return new RollUpJson(
        rollUp.assembly().code(),
        rollUp.assembly().name(),
        rollUp.scope().code(),
        revision,
        estimate(rollUp, unit),
        lines,
        rollUp.omitted().stream().map(OmissionJson::of).toList(),
        predicted);
  }

  /** The total itself. */
  static EstimateJson estimate(RollUp rollUp, Unit unit) {
    return EstimateJson.of(
        rollUp.estimate(),
        rollUp.basis(),
        rollUp.unweighedLines(),
        rollUp.missing().stream().map(Piece::code).toList(),
        unit);
  }

  /**
   * A line with all beneath it.
   *
   * @param missing gets the codes of what has no mass in it
   */
  private static LineJson line(Entry entry, Set<String> missing, Unit unit) {
    Content content = entry.line().content();
    Set<String> missingHere = new LinkedHashSet<>();
    List<LineJson> beneath = null;
    if (content instanceof Assembly) {
      beneath = new ArrayList<>();
      for (Entry child : entry.children()) {
        beneath.add(line(child, missingHere, unit));
      }
    } else if (entry.estimate() == null) {
      missingHere.add(content.code());
    }
    missing.addAll(missingHere);
    Estimate estimate = entry.estimate();
    Basis basis = entry.basis();
    return new LineJson(
        entry.line().id(),
        code(content, Piece.class),
        code(content, Assembly.class),
        content.name(),
        entry.line().role(),
        entry.line().quantity(),
        entry.count(),
        estimate == null
            ? null
            : EstimateJson.of(
                estimate, basis, entry.unweighedLines(), List.copyOf(missingHere), unit),
        QuantityJson.plain(entry.shareOfMass()),
        QuantityJson.plain(entry.shareOfVariance()),
        basis == null ? null : basis.word(),
        beneath);
  }

  private static @Nullable String code(Content content, Class<? extends Content> kind) {
    return kind.isInstance(content) ? content.code() : null;
  }
}
