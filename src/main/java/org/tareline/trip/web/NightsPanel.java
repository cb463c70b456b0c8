package org.tareline.trip.web;

import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Comfort;
import org.tareline.trip.Nights;
import org.tareline.units.Quantity;

/**
 * What a trip takes against the cold.
 *
 * @param coldest null where nobody has said
 * @param anyMargin whether there is anything to say in a column of margins
 */
record NightsPanel(
    @Nullable String coldest, List<Side> sides, boolean anyMargin, List<String> notes) {

  /**
   * What one person takes for one side.
   *
   * @param wanting whether it is too little or not known
   */
  record Side(String title, String words, boolean wanting, List<Row> rows) {}

  record Row(String code, String name, @Nullable String stated, String kind, String margin) {}

  /** Null where the trip says nothing of its nights and nothing on it of the cold. */
  static @Nullable NightsPanel of(Nights nights) {
    List<Side> sides = new ArrayList<>();
    boolean any = false;
    for (Nights.OfCarrier of : nights.carriers()) {
      for (Nights.OfSide side : of.sides()) {
        any |= !side.things().isEmpty();
        sides.add(
            new Side(
                (of.carrier() == null ? "" : of.carrier().name() + ", ") + title(side.side()),
                side.words(),
                side.verdict() != Nights.Verdict.STATED_FOR_IT,
                side.things().stream().map(NightsPanel::row).toList()));
      }
    }
    Quantity coldest = nights.coldest();
    return coldest == null && !any
        ? null
        : new NightsPanel(
            coldest == null ? null : coldest.text(), sides, coldest != null, Nights.NOTES);
  }

  private static String title(Comfort.@Nullable Side side) {
    return side == null ? "side not said" : side.word();
  }

  private static Row row(Nights.Thing thing) {
    Comfort comfort = thing.comfort();
    return new Row(
        thing.piece().code(),
        thing.piece().name(),
        comfort.temperature() == null ? null : comfort.temperature().text(),
        comfort.kind() == null ? "" : comfort.kind().pageWords(),
        thing.margin() == null
            ? "not known"
            : (thing.margin().signum() < 0 ? "−" : "+")
                + thing.margin().abs().setScale(1, RoundingMode.HALF_EVEN).toPlainString());
  }
}
