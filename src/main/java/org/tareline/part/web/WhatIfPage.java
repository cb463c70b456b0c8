package org.tareline.part.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.material.Material;
import org.tareline.part.CostChange;
import org.tareline.part.Need;
import org.tareline.part.Part;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.part.WhatIfs;
import org.tareline.site.CandidateTable;
import org.tareline.site.CandidateTable.Cell;
import org.tareline.site.CandidateTable.Column;
import org.tareline.site.CandidateTable.Row;
import org.tareline.site.Figure;
import org.tareline.site.FormFields;
import org.tareline.units.MassStyle;

/**
 * What a part would be of other materials, as its page shows it.
 *
 * @param materials that its cut list has; empty where it has no list
 * @param replaced code of the one that the table is about; empty where there is none
 * @param text what candidates were narrowed down by
 * @param table null where there is no candidate
 * @param notShown that some candidates are left out, as a sentence; null where all are shown
 */
record WhatIfPage(
    String code,
    String name,
    List<FormFields.Choice> materials,
    String replaced,
    String text,
    @Nullable CandidateTable table,
    @Nullable String notShown) {

  /** A candidate with what it makes of the part. */
  private record Shown(WhatIfs.Candidate candidate, WhatIf whatIf) {}

  static WhatIfPage of(Part part, WhatIfs.Choice choice, String text, MassStyle style) {
    List<Shown> fitting =
        choice.candidates().stream()
            .filter(candidate -> candidate.holds(text))
            .map(
                candidate ->
                    new Shown(
                        candidate, Objects.requireNonNull(candidate.whatIfs().get(part.id()))))
            .sorted(Comparator.comparing(shown -> shown.whatIf().difference().value()))
            .toList();
    List<Shown> shown = fitting.stream().limit(CandidateTable.MOST).toList();
    Material from = choice.from();
    return new WhatIfPage(
        part.code(),
        part.name(),
        choice.used().stream().map(WhatIfPage::choice).toList(),
        from == null ? "" : from.code(),
        text,
        from == null || shown.isEmpty() ? null : table(part, choice, from, shown, style),
        CandidateTable.notShown(shown.size(), fitting.size()));
  }

  private static FormFields.Choice choice(Material material) {
    return new FormFields.Choice(material.code(), material.code() + ", " + material.name());
  }

  private static CandidateTable table(
      Part part, WhatIfs.Choice choice, Material from, List<Shown> shown, MassStyle style) {
    WhatIf any = shown.get(0).whatIf();
    Estimate before = any.before().estimate();
    List<Estimate> calculated = new ArrayList<>(List.of(before));
    shown.forEach(each -> calculated.add(each.whatIf().after().estimate()));
    int decimals = Figure.decimals(calculated, style);
    List<Column> columns = new ArrayList<>(List.of(new Column(from.code(), from.name())));
    shown.forEach(each -> columns.add(each.candidate().column()));
    List<Row> rows = new ArrayList<>();
    rows.add(
        Row.of(
            "What it holds",
            Cell.of(Swap.strength(from)),
            shown,
            each -> each.whatIf().swaps().get(0).cell()));
    rows.add(
        Row.of(
            "Mass by the cut list, " + style.heading(),
            Cell.of(before, style, decimals),
            shown,
            each -> Cell.of(each.whatIf().after().estimate(), style, decimals)));
    rows.add(
        words(
            "Difference",
            "as it is",
            shown,
            each -> CandidateTable.words(each.whatIf().difference(), style)));
    Estimate now = any.now().estimate();
    if (now != null && any.weighed()) {
      rows.add(
          Row.of(
              "As it was weighed, and the difference, " + style.heading(),
              Cell.of(now, style, decimals),
              shown,
              each -> Cell.of(Objects.requireNonNull(each.whatIf().then()), style, decimals)));
    }
    rows.add(
        words(
            "Cost, as far as it can be told",
            Need.words(any.cost().before()),
            shown,
            each -> cost(each.whatIf().cost())));
    rows.add(
        words(
            "To buy, at most",
            toBuy(any.needsBefore(), from),
            shown,
            each -> toBuy(each.whatIf().needsAfter(), each.candidate().material())));
    rows.add(
        words(
            "What the material weighs",
            Objects.requireNonNull(choice.mass()).words(from),
            shown,
            each -> each.candidate().mass().words(each.candidate().material())));
    if (shown.stream().anyMatch(each -> !each.whatIf().notes().isEmpty())) {
      rows.add(words("Besides", "", shown, each -> String.join(" ", each.whatIf().notes())));
    }
    return new CandidateTable(
        part.code()
            + " with other materials in the place of "
            + from.code()
            + ", the lightest first; ± at 95 %. What is the same in both cancels in the difference.",
        columns,
        rows);
  }

  private static Row words(
      String label, String present, List<Shown> shown, Function<Shown, String> words) {
    return Row.of(label, Cell.of(present), shown, each -> Cell.of(words.apply(each)));
  }

  private static String cost(CostChange cost) {
    return Need.words(cost.after()) + "; " + cost.words();
  }

  private static String toBuy(List<Need> needs, Material material) {
    return Need.toBuy(
        needs.stream()
            .filter(need -> need.material().id() == material.id())
            .collect(Collectors.toMap(need -> need, need -> 1L)));
  }
}
