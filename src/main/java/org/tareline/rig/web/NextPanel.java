package org.tareline.rig.web;

import java.util.List;
import org.tareline.rig.ToWeigh;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.Piece;
import org.tareline.site.SumTable;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * The few parts that are best weighed next, as a page shows them.
 *
 * @param scale code of the scale they would be weighed on
 * @param now the uncertainty as things are, with its unit
 * @param rows those that would make it smaller, in their order
 * @param missing parts that have no mass, which come before all others
 * @param moreMissing how many more of those there are
 */
record NextPanel(String scale, String now, List<Row> rows, List<Thing> missing, int moreMissing) {

  private static final int MOST = 5;

  /** A part. */
  record Thing(String code, String name) {}

  /** A part with its share of the doubt, and the uncertainty after it has been weighed. */
  record Row(Thing thing, String share, String after) {}

  static NextPanel of(ToWeigh.OnScale toWeigh, MassStyle style) {
    NextWeighings next = toWeigh.next();
    List<Row> rows =
        next.candidates().stream()
            .limit(MOST)
            .map(
                candidate ->
                    new Row(
                        thing(candidate.piece()),
                        SumTable.percent(candidate.shareOfVariance()),
                        text(candidate.expandedUncertaintyInGramsAfter(), style)))
            .toList();
    List<Thing> missing = next.missing().stream().limit(MOST).map(NextPanel::thing).toList();
    return new NextPanel(
        toWeigh.scale().code(),
        text(next.expandedUncertaintyInGrams(), style),
        rows,
        missing,
        next.missing().size() - missing.size());
  }

  private static Thing thing(Piece piece) {
    return new Thing(piece.code(), piece.name());
  }

  private static String text(double grams, MassStyle style) {
    Mass mass = Mass.fromGrams(grams);
    return style.text(mass, style.decimals(mass, 2));
  }
}
