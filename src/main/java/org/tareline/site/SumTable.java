package org.tareline.site;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * A total opened: a row for each part that it is the sum of, with its value, its uncertainties and
 * its shares. Every string is ready.
 *
 * @param unit of its columns of masses
 * @param addsUp whether the rows as rounded add up to the total as rounded
 */
public record SumTable(String unit, List<Row> rows, Row total, boolean addsUp) {

  /**
   * One of its rows.
   *
   * @param code null of what has no page of its own
   * @param words what it does there
   * @param figure null where it has no mass
   * @param standard u; empty where it has no mass
   */
  public record Row(
      @Nullable String code,
      String name,
      String words,
      String count,
      @Nullable Figure figure,
      String standard,
      String shareOfMass,
      String shareOfVariance,
      String basis) {}

  /** What is added; the estimate is of all of it together. */
  public record Item(
      @Nullable String code,
      String name,
      String words,
      long count,
      @Nullable Estimate estimate,
      double shareOfMass,
      double shareOfVariance,
      @Nullable Basis basis) {}

  public static SumTable of(List<Item> items, Estimate sum, MassStyle style) {
    List<@Nullable Estimate> column = new ArrayList<>();
    items.forEach(item -> column.add(item.estimate()));
    column.add(sum);
    int decimals = Figure.decimals(column, style);
    boolean atLeast = items.stream().anyMatch(item -> item.estimate() == null);
    return new SumTable(
        style.heading(),
        items.stream().map(item -> row(item, style, decimals)).toList(),
        row(
            new Item(
                null,
                atLeast ? "Total, at least" : "Total",
                "",
                items.stream().mapToLong(Item::count).sum(),
                sum,
                1,
                sum.variance() == 0 ? 0 : 1,
                items.stream()
                    .map(Item::basis)
                    .filter(Objects::nonNull)
                    .reduce(Basis::of)
                    .orElse(null)),
            style,
            decimals),
        style.addsUp(
            items.stream()
                .map(Item::estimate)
                .filter(Objects::nonNull)
                .map(Estimate::value)
                .toList(),
            sum.value(),
            decimals));
  }

  private static Row row(Item item, MassStyle style, int decimals) {
    Estimate estimate = item.estimate();
    Mass standard = estimate == null ? Mass.ZERO : estimate.standardUncertainty();
    return new Row(
        item.code(),
        item.name(),
        item.words(),
        String.valueOf(item.count()),
        Figure.orNull(estimate, style, decimals),
        estimate == null ? "" : style.number(standard, style.decimals(standard, 2)),
        estimate == null ? "" : percent(item.shareOfMass()),
        estimate == null ? "" : percent(item.shareOfVariance()),
        item.basis() == null ? "not known" : item.basis().pageWords());
  }

  /** A share in per cent. */
  public static String percent(double share) {
    BigDecimal percent = new BigDecimal(100 * share).setScale(1, RoundingMode.HALF_EVEN);
    if (percent.signum() == 0 && share != 0) {
      return "under 0.1\u00a0%";
    }
    return percent.toPlainString().replace('-', '\u2212') + "\u00a0%";
  }
}
