package org.tareline.material.web;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.material.CutFrom;
import org.tareline.material.OnHand;
import org.tareline.material.StockEntries;
import org.tareline.site.Figure;
import org.tareline.site.Moments;
import org.tareline.units.MassStyle;

/**
 * What of a material is on hand, and what it is used in.
 *
 * @param onHand in words
 * @param example of an amount, for a hint
 * @param overdrawn whether more was cut than there was
 * @param before what was on hand before the record begins; null where nobody said
 * @param lines of the record, newest first
 * @param unit of the column of masses
 */
record Shelf(
    String onHand,
    String example,
    boolean overdrawn,
    @Nullable String before,
    List<Line> lines,
    List<String> reasons,
    String unit,
    List<Use> uses) {

  /**
   * A line of the record.
   *
   * @param what what happened, such as {@code cut 3.03 m}
   * @param struckOut the reason; null while it stands
   */
  record Line(
      String id,
      String when,
      String what,
      @Nullable String part,
      @Nullable String note,
      @Nullable String struckOut) {}

  /**
   * A part whose cut list uses it.
   *
   * @param needs how much of the stock one takes
   * @param covered whether so much is on hand, in words
   */
  record Use(String code, String name, Figure figure, String needs, String covered) {}

  static Shelf of(
      OnHand onHand,
      Optional<String> before,
      List<StockEntries.Logged> record,
      List<CutFrom.Use> uses,
      MassStyle style,
      Moments moments) {
    int decimals = Figure.decimals(uses.stream().map(CutFrom.Use::ofMaterial).toList(), style);
    return new Shelf(
        onHand.words(),
        onHand.measure().example(),
        onHand.overdrawn(),
        before.orElse(null),
        record.stream().map(logged -> line(logged, moments)).toList(),
        StockEntries.REASONS_TO_STRIKE_OUT,
        style.heading(),
        uses.stream().map(use -> use(use, onHand, style, decimals)).toList());
  }

  private static Line line(StockEntries.Logged logged, Moments moments) {
    return new Line(
        logged.entry().uuid().toString(),
        moments.minute(logged.entry().happenedAt()),
        logged.entry().kind().word() + " " + logged.entry().typed(),
        logged.part() == null ? null : logged.part().code(),
        logged.entry().note().orElse(null),
        logged.voidReason());
  }

  private static Use use(CutFrom.Use use, OnHand onHand, MassStyle style, int decimals) {
    BigDecimal needs = use.needs();
    return new Use(
        use.thing().code(),
        use.thing().name(),
        Figure.of(use.ofMaterial(), style, decimals),
        needs == null ? "not known" : onHand.measure().words(needs),
        needs == null
            ? ""
            : onHand.covers(needs).map(covers -> covers ? "enough" : "not enough").orElse(""));
  }
}
