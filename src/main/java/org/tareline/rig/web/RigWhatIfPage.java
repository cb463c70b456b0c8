package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.material.Material;
import org.tareline.part.Need;
import org.tareline.part.Part;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.part.WhatIfs;
import org.tareline.rig.LoadsChange;
import org.tareline.rig.Rig;
import org.tareline.rig.RigWhatIf;
import org.tareline.rig.RigWhatIfs;
import org.tareline.rollup.Scope;
import org.tareline.site.CandidateTable;
import org.tareline.site.CandidateTable.Cell;
import org.tareline.site.CandidateTable.Column;
import org.tareline.site.CandidateTable.Row;
import org.tareline.site.Figure;
import org.tareline.site.FormFields;
import org.tareline.statics.Assessment;
import org.tareline.units.MassStyle;

/**
 * What a rig would be of other materials, as its page shows it.
 *
 * @param materials that the cut lists of its counted parts have; empty where there are none
 * @param replaced code of the one that the table is about; empty where there is none
 * @param table null where there is no candidate
 * @param notShown that some candidates are left out, as a sentence; null where all are shown
 * @param weighed codes of changed parts that were weighed, as a sentence; null where none was
 * @param withoutList codes of counted parts that have no cut list
 */
record RigWhatIfPage(
    String code,
    String name,
    String scope,
    String counted,
    List<FormFields.Choice> scopes,
    List<FormFields.Choice> materials,
    String replaced,
    String text,
    @Nullable CandidateTable table,
    @Nullable String notShown,
    @Nullable String weighed,
    List<String> withoutList) {

  /** A candidate with what it makes of the rig. */
  private record Shown(WhatIfs.Candidate candidate, RigWhatIf whatIf) {

    Estimate difference() {
      return Objects.requireNonNull(whatIf.difference());
    }
  }

  static RigWhatIfPage of(
      Rig rig, RigWhatIfs.Choice choice, List<Scope> scopes, String text, MassStyle style) {
    List<Shown> fitting = new ArrayList<>();
    for (int i = 0; i < choice.whatIfs().size(); i++) {
      WhatIfs.Candidate candidate = choice.materials().candidates().get(i);
      if (candidate.holds(text)) {
        fitting.add(new Shown(candidate, choice.whatIfs().get(i)));
      }
    }
    fitting.sort(Comparator.comparing(shown -> shown.difference().value()));
    List<Shown> shown = fitting.subList(0, Math.min(CandidateTable.MOST, fitting.size()));
    Material from = choice.materials().from();
    Scope scope = choice.before().scope();
    return new RigWhatIfPage(
        rig.code(),
        rig.name(),
        scope.code(),
        scope.name() + ": " + scope.words() + ".",
        scopes.stream().map(each -> new FormFields.Choice(each.code(), each.name())).toList(),
        choice.materials().used().stream()
            .map(each -> new FormFields.Choice(each.code(), each.code() + ", " + each.name()))
            .toList(),
        from == null ? "" : from.code(),
        text,
        from == null || shown.isEmpty() ? null : table(rig, choice, from, shown, style),
        CandidateTable.notShown(shown.size(), fitting.size()),
        shown.isEmpty() ? null : weighed(shown.get(0).whatIf()),
        choice.materials().withoutList().stream().map(Part::code).toList());
  }

  private static @Nullable String weighed(RigWhatIf whatIf) {
    String codes =
        whatIf.parts().stream()
            .map(RigWhatIf.Changed::whatIf)
            .filter(WhatIf::weighed)
            .map(each -> each.part().code())
            .collect(Collectors.joining(", "));
    return codes.isEmpty()
        ? null
        : codes
            + ": weighed. The difference is by the cut list, and is added to what it weighs now.";
  }

  private static CandidateTable table(
      Rig rig, RigWhatIfs.Choice choice, Material from, List<Shown> shown, MassStyle style) {
    Estimate before = choice.before().estimate();
    List<Estimate> totals = new ArrayList<>(List.of(before));
    shown.forEach(each -> totals.add(Objects.requireNonNull(each.whatIf().after())));
    int decimals = Figure.decimals(totals, style);
    List<Column> columns = new ArrayList<>(List.of(new Column(from.code(), from.name())));
    shown.forEach(each -> columns.add(each.candidate().column()));
    RigWhatIf any = shown.get(0).whatIf();
    List<Row> rows = new ArrayList<>();
    rows.add(
        Row.of(
            "What it holds",
            Cell.of(Swap.strength(from)),
            shown,
            each -> each.whatIf().swaps().get(0).cell()));
    LoadsChange hung = any.loads();
    if (hung != null) {
      rows.add(
          Row.of(
              "As it is hung",
              Cell.of(hung.before().assessment().verdict().word()),
              shown,
              each -> {
                LoadsChange loads = Objects.requireNonNull(each.whatIf().loads());
                return new Cell(
                    null,
                    loads.words(),
                    loads.after().assessment().verdict() != Assessment.Verdict.MEETS);
              }));
    }
    rows.add(
        Row.of(
            (choice.before().atLeast() ? "Total of what is known, " : "Total, ") + style.heading(),
            Cell.of(before, style, decimals),
            shown,
            each -> Cell.of(Objects.requireNonNull(each.whatIf().after()), style, decimals)));
    rows.add(
        words(
            "Difference",
            "as it is",
            shown,
            each -> CandidateTable.words(each.difference(), style)));
    for (int i = 0; i < any.parts().size(); i++) {
      int part = i;
      RigWhatIf.Changed changed = any.parts().get(i);
      rows.add(
          words(
              (changed.count() == 1 ? "" : changed.count() + " × ")
                  + changed.whatIf().part().code(),
              "as it is",
              shown,
              each -> CandidateTable.words(each.whatIf().parts().get(part).difference(), style)));
    }
    rows.add(
        words(
            "Cost of its cut lists, as far as it can be told",
            Need.words(any.cost().before()),
            shown,
            each ->
                Need.words(each.whatIf().cost().after()) + "; " + each.whatIf().cost().words()));
    rows.add(
        words(
            "To buy, at most",
            toBuy(any, from, WhatIf::needsBefore),
            shown,
            each -> toBuy(each.whatIf(), each.candidate().material(), WhatIf::needsAfter)));
    rows.add(
        words(
            "What the material weighs",
            Objects.requireNonNull(choice.materials().mass()).words(from),
            shown,
            each -> each.candidate().mass().words(each.candidate().material())));
    return new CandidateTable(
        rig.code()
            + " with other materials in the place of "
            + from.code()
            + ", the lightest first; ± at 95 %. What stays the same cancels in the difference.",
        columns,
        rows);
  }

  private static Row words(
      String label, String present, List<Shown> shown, Function<Shown, String> words) {
    return Row.of(label, Cell.of(present), shown, each -> Cell.of(words.apply(each)));
  }

  private static String toBuy(
      RigWhatIf whatIf, Material material, Function<WhatIf, List<Need>> needs) {
    Map<Need, Long> counts = new LinkedHashMap<>();
    for (RigWhatIf.Changed changed : whatIf.parts()) {
      needs.apply(changed.whatIf()).stream()
          .filter(need -> need.material().id() == material.id())
          .forEach(need -> counts.put(need, changed.count()));
    }
    return Need.toBuy(counts);
  }
}
