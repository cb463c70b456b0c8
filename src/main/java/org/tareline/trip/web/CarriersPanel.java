package org.tareline.trip.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.site.Figure;
import org.tareline.trip.Amount;
import org.tareline.trip.Days;
import org.tareline.trip.Figures;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;

/**
 * What each person carries.
 *
 * @param anyBody whether a body mass is given
 */
record CarriersPanel(boolean anyBody, List<Row> rows) {

  /**
   * A carrier.
   *
   * @param heaviest the pack on its heaviest morning, or at the start where the days are not known
   * @param when which morning that is
   * @param share of the heaviest pack of body mass, in percent; a dash where that is not given
   * @param shareSkinOut the same of all that is carried and worn on that morning
   */
  record Row(
      String code,
      String name,
      @Nullable String body,
      Cell base,
      Cell consumables,
      Cell worn,
      Cell heaviest,
      String when,
      String share,
      String shareSkinOut) {}

  private static final String NOT_GIVEN = "–";

  /** Null where nobody is named. */
  static @Nullable CarriersPanel of(Weights weights, MassStyle style) {
    if (weights.byCarrier().isEmpty()) {
      return null;
    }
    int decimals =
        Figure.decimals(
            weights.byCarrier().stream().map(of -> of.figures().totalPack().estimate()).toList(),
            style);
    return new CarriersPanel(
        weights.byCarrier().stream().anyMatch(of -> of.carrier().body() != null),
        weights.byCarrier().stream().map(of -> row(of, style, decimals)).toList());
  }

  private static Row row(Weights.OfCarrier of, MassStyle style, int decimals) {
    Figures figures = of.figures();
    Amount body = of.carrier().body();
    Days.OnDay heaviest = figures.days().heaviest().orElse(null);
    Estimate pack = heaviest == null ? figures.totalPack().estimate() : heaviest.mass();
    Estimate skinOut =
        heaviest == null
            ? figures.skinOut().estimate()
            : figures.days().days().get(heaviest.day() - 1).startSkinOut();
    return new Row(
        of.carrier().code(),
        of.carrier().name(),
        body == null ? null : body.typed().matches(".*[0-9]") ? body.typed() + " kg" : body.typed(),
        Cell.of(figures.base(), style, decimals),
        Cell.of(figures.consumables(), style, decimals),
        Cell.of(figures.worn(), style, decimals),
        figures.totalPack().lines() == 0
            ? Cell.of(figures.totalPack(), style, decimals)
            : Cell.of(pack, figures.totalPack().atLeast(), style, decimals),
        heaviest == null ? "at the start" : "on the morning of day " + heaviest.day(),
        share(pack, body, figures.totalPack().atLeast()),
        share(skinOut, body, figures.skinOut().atLeast()));
  }

  private static String share(Estimate load, @Nullable Amount body, boolean atLeast) {
    return body == null
        ? NOT_GIVEN
        : (atLeast ? "at least " : "")
            + new BigDecimal(100 * load.value().inGrams() / body.mass().inGrams())
                .setScale(0, RoundingMode.HALF_EVEN)
                .toPlainString();
  }
}
