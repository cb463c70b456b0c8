package org.tareline.weighing.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.AccuracyClass;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.OutlierScreen;
import org.tareline.evidence.Repeatability;
import org.tareline.evidence.Span;
import org.tareline.evidence.SpanFit;
import org.tareline.site.AsTyped;
import org.tareline.site.Figure;
import org.tareline.site.Moments;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;
import org.tareline.units.Unit;
import org.tareline.weighing.CheckReading;
import org.tareline.weighing.Scale;
import org.tareline.weighing.ScaleCheck;
import org.tareline.weighing.ScaleChecks;
import org.tareline.weighing.Scales;

/**
 * A scale as its page shows it; every string is ready.
 *
 * @param repeats how well it repeats a reading, as far as is known now
 * @param span how far it is off in proportion to the load, as far as is known now
 * @param least what it is not made for; null where its class is not stated
 * @param due that it ought to be checked; null while it need not
 * @param fit the check that is shown in full; null where there is none
 */
record ScalePage(
    String code,
    String name,
    String unit,
    String readability,
    String capacity,
    String repeats,
    String span,
    @Nullable String least,
    String checkEvery,
    @Nullable String due,
    long weighings,
    @Nullable String lastUsed,
    @Nullable Fit fit,
    List<Made> history,
    List<String> reasons) {

  /**
   * A check of the span in full.
   *
   * @param when it was made
   * @param heading the unit of the masses in its table
   */
  record Fit(
      String when,
      String result,
      String account,
      String heading,
      List<Row> rows,
      FitChart chart,
      String described) {}

  /** A check weight; masses in the reader's unit. */
  record Row(
      String weight,
      String goodTo,
      String shown,
      String off,
      String offPlusMinus,
      String residual) {}

  /**
   * A check in the history of the scale.
   *
   * @param kind as in the address
   * @param counts whether it is in force now
   * @param shown whether it can be shown in full
   */
  record Made(
      String id,
      String kind,
      String found,
      String when,
      String standing,
      boolean counts,
      @Nullable String struckOut,
      String account,
      @Nullable String note,
      boolean shown) {}

  /**
   * @param asked the check to be shown in full; the one in force where null
   */
  static ScalePage of(
      Scale scale,
      List<ScaleChecks.Held> held,
      Scales.@Nullable Use use,
      int checkEveryDays,
      Optional<Scales.Overdue> overdue,
      @Nullable UUID asked,
      Instant now,
      MassStyle style,
      Moments moments) {
    Optional<ScaleCheck> inForce = scale.inForce(ScaleCheck.Kind.SPAN, now);
    Optional<ScaleCheck> shown =
        held.stream()
            .map(ScaleChecks.Held::check)
            .filter(check -> check.kind() == ScaleCheck.Kind.SPAN && check.uuid().equals(asked))
            .findFirst()
            .or(() -> inForce);
    return new ScalePage(
        scale.code(),
        scale.name(),
        scale.unit().symbol(),
        AsTyped.text(scale.readabilityTyped(), Unit.GRAM),
        AsTyped.text(scale.capacityTyped(), Unit.GRAM),
        repeats(scale, now, style, moments),
        span(scale, inForce, style, moments),
        scale
            .permitted()
            .map(each -> each.accuracyClass().least(each.interval()))
            .map(mass -> style.text(mass, style.decimals(mass)))
            .orElse(null),
        "every " + checkEveryDays + " days",
        overdue.map(each -> each.words(moments)).orElse(null),
        use == null ? 0 : use.weighings(),
        use == null ? null : moments.day(use.lastUsed()),
        shown.map(check -> fit(scale, check, style, moments)).orElse(null),
        held.stream().map(each -> made(each, now, style, moments)).toList(),
        ScaleChecks.REASONS_TO_STRIKE_OUT);
  }

  private static String repeats(Scale scale, Instant now, MassStyle style, Moments moments) {
    Repeatability known = scale.repeatabilityAt(now);
    if (known == null) {
      return "not known: a single reading leaves it out of its ±, and two or more readings show their own"
          + " scatter";
    }
    Optional<ScaleCheck> check = scale.inForce(ScaleCheck.Kind.REPEATABILITY, now);
    return scatter(known.standardDeviation(), style)
        + check
            .map(
                made ->
                    ", by "
                        + made.readings().size()
                        + " readings of one load on "
                        + moments.day(made.checkedAt()))
            .orElse(", as stated");
  }

  private static String scatter(Mass standardDeviation, MassStyle style) {
    return standardDeviation.signum() == 0
        ? "readings of one thing are all alike: its steps hide what scatter there is"
        : "readings of one thing scatter with a standard deviation of "
            + style.text(standardDeviation, style.decimals(standardDeviation, 2));
  }

  private static String span(
      Scale scale, Optional<ScaleCheck> inForce, MassStyle style, Moments moments) {
    if (inForce.isPresent()) {
      return "by the check of "
          + moments.day(inForce.get().checkedAt())
          + ", what it shows is "
          + times(scale.fit(inForce.get()))
          + " what is on it, and is divided by that";
    }
    Optional<Span.Permitted> permitted = scale.permitted();
    if (permitted.isPresent()) {
      return permitted(permitted.get(), style);
    }
    return scale.spanTyped() == null
        ? "not known, and so not in any ±"
        : "± " + scale.spanTyped() + " of the load as stated, shared by all that is weighed on it";
  }

  /** The errors of its class in service, at the ends of their steps. */
  private static String permitted(Span.Permitted permitted, MassStyle style) {
    AccuracyClass accuracyClass = permitted.accuracyClass();
    Mass interval = permitted.interval();
    return "class "
        + accuracyClass.name()
        + ", e = "
        + exact(interval, style)
        + ": in service up to ± "
        + exact(interval, style)
        + " off, ± "
        + exact(interval.times(2), style)
        + " and ± "
        + exact(interval.times(3), style)
        + " at larger loads (OIML R 76-1, table 6, twice), one and the same for all that is weighed on it";
  }

  private static String exact(Mass mass, MassStyle style) {
    return style.text(mass, style.decimals(mass));
  }

  /** {@code 1.0004 ± 0.0002 times}. */
  private static String times(SpanFit fit) {
    BigDecimal unsure =
        new BigDecimal(fit.expandedUncertainty()).round(new MathContext(2, RoundingMode.HALF_EVEN));
    return new BigDecimal(fit.slope())
            .setScale(Math.max(0, unsure.scale()), RoundingMode.HALF_EVEN)
            .toPlainString()
        + "\u00a0±\u00a0"
        + unsure.toPlainString()
        + " times";
  }

  private static Fit fit(Scale scale, ScaleCheck check, MassStyle style, Moments moments) {
    SpanFit fit = scale.fit(check);
    int decimals = Figure.decimals(fit.deviations(), style);
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < fit.points().size(); i++) {
      rows.add(row(scale, check.readings().get(i), fit, i, style, decimals));
    }
    String result = "What it shows is " + times(fit) + " what is on it.";
    return new Fit(
        moments.minute(check.checkedAt()),
        result,
        fit.fromScatter()
            ? "The weights part from the line by more than what they are good for, the steps of the scale and its"
                + " repeatability explain, so the ± comes from how they scatter. Look at the one that is farthest off."
            : "The ± comes from how good the weights are, the steps of the scale and, where it is known, its"
                + " repeatability.",
        style.heading(),
        rows,
        FitChart.of(fit, style, decimals),
        result
            + " "
            + rows.stream()
                .map(row -> row.weight() + " showed " + row.shown())
                .collect(Collectors.joining("; "))
            + ".");
  }

  private static Row row(
      Scale scale, CheckReading reading, SpanFit fit, int index, MassStyle style, int decimals) {
    Estimate deviation = fit.deviations().get(index);
    Figure off = Figure.of(deviation, style, decimals);
    return new Row(
        AsTyped.text(reading.nominalTyped(), scale.unit()),
        reading
            .weightClass()
            .map(named -> "class " + named.toUpperCase(Locale.ROOT))
            .orElseGet(() -> plusMinus(reading.toleranceTyped().orElse(""), scale.unit())),
        AsTyped.text(reading.typed(), scale.unit()),
        (deviation.value().signum() > 0 ? "+" : "") + off.number(),
        off.plusMinus(),
        style.number(fit.residuals().get(index), decimals));
  }

  private static String plusMinus(String typed, Unit unit) {
    String shown = AsTyped.text(typed, unit);
    return shown.startsWith("±") ? shown : "± " + shown;
  }

  private static Made made(ScaleChecks.Held held, Instant now, MassStyle style, Moments moments) {
    ScaleCheck check = held.check();
    Scale scale = held.scale();
    boolean ofSpan = check.kind() == ScaleCheck.Kind.SPAN;
    boolean counts =
        scale
            .inForce(check.kind(), now)
            .filter(each -> each.uuid().equals(check.uuid()))
            .isPresent();
    return new Made(
        check.uuid().toString(),
        ofSpan ? "checks" : "repeatability",
        ofSpan
            ? "shows " + times(scale.fit(check))
            : scatter(check.repeatability().standardDeviation(), style),
        moments.minute(check.checkedAt()),
        standing(held, counts, moments),
        counts,
        check.voidReason().orElse(null),
        ofSpan ? weights(scale, check) : readings(scale, check),
        check.note().orElse(null),
        ofSpan);
  }

  private static String standing(ScaleChecks.Held held, boolean counts, Moments moments) {
    if (held.check().voidReason().isPresent()) {
      return "struck out";
    }
    String rests =
        held.weighings() == 1
            ? "1 weighing rests on it"
            : held.weighings() + " weighings rest on it";
    Instant until = held.until();
    return counts || until == null ? rests : rests + ", until " + moments.day(until);
  }

  private static String weights(Scale scale, ScaleCheck check) {
    return check.readings().stream()
        .map(
            reading ->
                AsTyped.text(reading.nominalTyped(), scale.unit())
                    + " showed "
                    + AsTyped.text(reading.typed(), scale.unit()))
        .collect(Collectors.joining("; "));
  }

  private static String readings(Scale scale, ScaleCheck check) {
    List<Mass> masses = check.readings().stream().map(CheckReading::mass).toList();
    String apart =
        OutlierScreen.of(masses).stream()
            .map(flag -> AsTyped.text(check.readings().get(flag.index()).typed(), scale.unit()))
            .collect(Collectors.joining(", "));
    return "One load read "
        + check.readings().stream()
            .map(reading -> AsTyped.text(reading.typed(), scale.unit()))
            .collect(Collectors.joining(", "))
        + (apart.isEmpty() ? "" : "; apart from the others: " + apart);
  }
}
