package org.tareline.weighing.web;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Repeatability;
import org.tareline.evidence.Span;
import org.tareline.evidence.SpanFit;
import org.tareline.ledger.Settings;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.site.Moments;
import org.tareline.site.TableColumn;
import org.tareline.site.TableOrder;
import org.tareline.units.Mass;
import org.tareline.weighing.Scale;
import org.tareline.weighing.ScaleCheck;
import org.tareline.weighing.Scales;

/** The table of scales, by one of its columns. */
record ScaleTable(List<Line> lines) {

  static final List<TableColumn<Line>> COLUMNS =
      List.of(
          TableColumn.of("code", "Code", "", line -> Codes.key(line.scale().code())),
          TableColumn.of("name", "Name", "", line -> line.scale().name().toLowerCase(Locale.ROOT)),
          TableColumn.of("step", "Smallest step", "number", line -> line.scale().readability()),
          TableColumn.of("capacity", "Capacity", "number", line -> line.scale().capacity()),
          TableColumn.of("repeatability", "Repeatability", "number", Line::repeatability),
          TableColumn.of("span", "Off by up to", "number", Line::offBy),
          TableColumn.of("weighings", "Weighings", "number", Line::weighings),
          TableColumn.of("used", "Last used", "number", Line::lastUsed),
          TableColumn.of("checked", "Last checked", "number", Line::lastChecked));

  /**
   * A scale, and what counts on it at a moment.
   *
   * @param now that moment
   */
  record Line(Scale scale, Scales.@Nullable Use use, Instant now) {

    @Nullable Mass repeatability() {
      Repeatability known = scale.repeatabilityAt(now);
      return known == null ? null : known.standardDeviation();
    }

    long weighings() {
      return use == null ? 0 : use.weighings();
    }

    @Nullable Instant lastUsed() {
      return use == null ? null : use.lastUsed();
    }

    @Nullable Instant lastChecked() {
      return scale.inForce(ScaleCheck.Kind.SPAN, now).map(ScaleCheck::checkedAt).orElse(null);
    }

    /** How far it may be off in proportion to the load; null where that is not known. */
    @Nullable BigDecimal offBy() {
      return scale
          .inForce(ScaleCheck.Kind.SPAN, now)
          .map(check -> BigDecimal.valueOf(scale.fit(check).expandedUncertainty()))
          .orElse(scale.permitted().isPresent() ? null : scale.spanHalfWidth());
    }
  }

  static ScaleTable of(
      List<Scale> scales, Map<Long, Scales.Use> uses, Instant now, TableOrder<Line> order) {
    return new ScaleTable(
        order.sorted(scales.stream().map(scale -> new Line(scale, uses.get(scale.id()), now))));
  }

  CsvTable csv(Settings settings, Moments moments) {
    CsvTable csv =
        new CsvTable(
            "code",
            "name",
            "smallest step [g]",
            "capacity [g]",
            "repeatability [g]",
            "span tolerance [1]",
            "accuracy class",
            "verification interval [g]",
            "slope [1]",
            "standard uncertainty of the slope [1]",
            "last checked",
            "check every [d]",
            "weighings",
            "last used");
    for (Line line : lines) {
      Scale scale = line.scale();
      SpanFit fit = scale.inForce(ScaleCheck.Kind.SPAN, line.now()).map(scale::fit).orElse(null);
      Mass repeatability = line.repeatability();
      Span.Permitted permitted = scale.permitted().orElse(null);
      Instant checked = line.lastChecked();
      Instant used = line.lastUsed();
      csv.line(
          scale.code(),
          scale.name(),
          scale.readability().grams(),
          scale.capacity().grams(),
          repeatability == null ? null : repeatability.grams(),
          scale.spanHalfWidth() == null ? null : scale.spanHalfWidth().stripTrailingZeros(),
          permitted == null ? null : permitted.accuracyClass().name(),
          permitted == null ? null : permitted.interval().grams(),
          fit == null ? null : fit.slope(),
          fit == null ? null : fit.standardUncertainty(),
          checked == null ? null : moments.day(checked),
          scale.checkEveryDays(settings),
          line.weighings(),
          used == null ? null : moments.day(used));
    }
    return csv;
  }
}
