package org.tareline.part.web;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Nesting;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.ledger.Member;
import org.tareline.material.OnHand;
import org.tareline.part.Calculation;
import org.tareline.part.CutLine;
import org.tareline.part.CutSize;
import org.tareline.part.Need;
import org.tareline.part.Part;
import org.tareline.part.PartEvidence;
import org.tareline.site.AsTyped;
import org.tareline.site.Figure;
import org.tareline.units.Kind;
import org.tareline.units.MassStyle;
import org.tareline.units.Unit;

/**
 * A part's cut list as its page shows it.
 *
 * @param figure what it comes to
 * @param tolerance of every cut edge, as a sentence
 * @param unit of the columns of masses
 * @param addsUp whether the rows add up to the total in the last digit
 * @param against the weighing held against it, as sentences; null where it was not weighed
 */
record CutListPage(
    String code,
    String name,
    Figure figure,
    String tolerance,
    String unit,
    List<Row> rows,
    boolean addsUp,
    List<Drawing> drawings,
    List<Want> wants,
    String cost,
    @Nullable Against against) {

  /**
   * A line of the list.
   *
   * @param weighed that it was weighed; null where it is calculated
   */
  record Row(
      String name,
      String what,
      String material,
      String quantity,
      String sizes,
      Figure figure,
      @Nullable String weighed) {}

  /**
   * What it wants of a material.
   *
   * @param buy along the roll, or how much; empty where that is not known
   * @param offcut what is left over; empty where that is not known
   * @param onHand how much there is, and whether it is enough; empty where it was never counted
   * @param toCut how much of the stock one takes; empty where that is not known
   * @param tooWide panels that do not fit across the roll, as a sentence; null where all do
   * @param roll how the panels lie; null where that is not known
   */
  record Want(
      String material,
      String name,
      Figure figure,
      String share,
      String net,
      String buy,
      String offcut,
      String onHand,
      String toCut,
      String cost,
      @Nullable String tooWide,
      Drawing.@Nullable Roll roll) {}

  /** Weighed against calculated. */
  record Against(Figure calculated, Figure weighed, Figure difference, String words) {}

  static CutListPage of(Member member, Part part, PartEvidence known, Calculation calculation) {
    MassStyle style = member.massStyle();
    List<Estimate> column =
        new ArrayList<>(calculation.lines().stream().map(calculation::estimate).toList());
    Estimate total = calculation.estimate();
    List<Estimate> all = new ArrayList<>(column);
    all.add(total);
    int decimals = Figure.decimals(all, style);
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < column.size(); i++) {
      Calculation.Line line = calculation.lines().get(i);
      rows.add(row(line, Figure.of(column.get(i), style, decimals)));
    }
    List<CutLine> panels =
        calculation.lines().stream()
            .map(Calculation.Line::line)
            .filter(line -> line.form().shape().isPresent())
            .toList();
    double scale = Drawing.scale(panels.stream().map(CutLine::outline).toList());
    List<Need> needs = Need.of(calculation);
    return new CutListPage(
        part.code(),
        part.name(),
        Figure.of(total, style, decimals),
        part.cuttingToleranceTyped()
            .map(typed -> "Every edge is taken as cut to ± " + AsTyped.text(typed, Unit.MILLIMETRE))
            .orElse("Every edge is taken as cut to ± 3\u00a0mm, which is common practice"),
        style.heading(),
        rows,
        style.addsUp(column.stream().map(Estimate::value).toList(), total.value(), decimals),
        panels.stream()
            .map(line -> Drawing.of(line.name().orElse(Words.of(line.form())), line, scale))
            .toList(),
        needs.stream()
            .map(
                need ->
                    want(need, known.onHand().get(need.material().id()), total, style, decimals))
            .toList(),
        Need.total(needs).stream().map(Need.Cost::words).collect(Collectors.joining(" + ")),
        against(known, calculation.calculated(), style));
  }

  private static Row row(Calculation.Line line, Figure figure) {
    CutLine cut = line.line();
    return new Row(
        cut.name().orElse(""),
        what(cut),
        line.material().code(),
        String.valueOf(cut.quantity()),
        sizes(cut),
        figure,
        line.weighed() == null
            ? null
            : line.weighed().changed() ? "weighed; something else is cut since" : "weighed");
  }

  static String what(CutLine cut) {
    return Words.of(cut.form()) + (cut.removed() ? ", cut away" : "");
  }

  static String sizes(CutLine cut) {
    return cut.typed().entrySet().stream()
        .map(
            size ->
                size.getKey().words()
                    + " "
                    + (size.getKey().kind().isEmpty()
                        ? size.getValue()
                        : AsTyped.text(size.getValue(), bare(size.getKey()))))
        .collect(Collectors.joining(", "));
  }

  private static Unit bare(CutSize size) {
    return size.kind()
        .map(kind -> kind == Kind.LENGTH ? Unit.MILLIMETRE : kind.base())
        .orElse(Unit.METRE);
  }

  private static Want want(
      Need need, @Nullable OnHand onHand, Estimate total, MassStyle style, int decimals) {
    Nesting nesting = need.nesting();
    Double width = need.material().width().map(each -> each.inMetres()).orElse(null);
    double whole = total.value().inGrams();
    return new Want(
        need.material().code(),
        need.material().name(),
        Figure.of(need.estimate(), style, decimals),
        whole == 0 ? "" : Math.round(100 * need.estimate().value().inGrams() / whole) + "\u00a0%",
        need.squareMetres() != 0
            ? Drawing.metres(need.squareMetres()).replace("\u00a0m", "\u00a0m²")
            : need.metres() != 0
                ? Drawing.metres(need.metres())
                : need.pieces() == 0 ? "" : String.valueOf(need.pieces()),
        nesting != null
            ? Drawing.metres(nesting.metres()) + " of the roll"
            : need.squareMetres() != 0 ? "usable width not known" : "",
        need.offcut()
            .map(offcut -> Drawing.metres(offcut).replace("\u00a0m", "\u00a0m²"))
            .orElse(""),
        onHand == null || onHand.amount() == null ? "" : onHand(need, onHand),
        onHand == null ? "" : need.fromStock().map(onHand.measure()::words).orElse(""),
        need.cost() == null ? "" : need.cost().words(),
        nesting == null || nesting.tooWide().isEmpty()
            ? null
            : "Too wide for the roll, and to be pieced: "
                + nesting.tooWide().stream()
                    .map(Nesting.Piece::name)
                    .distinct()
                    .collect(Collectors.joining(", "))
                + ".",
        nesting == null || width == null ? null : Drawing.Roll.of(nesting, width));
  }

  private static String onHand(Need need, OnHand onHand) {
    return onHand.words()
        + need.fromStock()
            .flatMap(onHand::covers)
            .map(covers -> covers ? ", enough" : ", not enough")
            .orElse("");
  }

  static @Nullable Against against(PartEvidence known, Estimate calculated, MassStyle style) {
    Estimate weighed = known.mass().estimate();
    if (weighed == null || known.mass().weighing() == null) {
      return null;
    }
    Estimate difference = weighed.minus(calculated);
    return new Against(
        Figure.of(calculated, style),
        Figure.of(weighed, style),
        Figure.of(difference, style),
        switch (Verdict.of(difference)) {
          case LIGHTER -> "It came out lighter than the cut list says.";
          case HEAVIER -> "It came out heavier than the cut list says.";
          case UNDECIDED -> "It weighs what the cut list says, as far as can be told.";
        });
  }
}
