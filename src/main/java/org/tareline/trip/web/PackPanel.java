package org.tareline.trip.web;

import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.part.PackedSize;
import org.tareline.rollup.Piece;
import org.tareline.trip.PackFit;
import org.tareline.trip.Packing;

/** Whether what goes along goes into the packs. */
record PackPanel(List<Row> rows) {

  /**
   * One pack.
   *
   * @param whose null where nobody is named
   * @param pack how much goes into it, as typed; null where that is not given
   * @param missing what the sum lacks; null where it lacks nothing
   * @param tooLong what of it is too long, as a sentence
   */
  record Row(
      @Nullable String whose,
      String sum,
      @Nullable String pack,
      String fits,
      @Nullable String missing,
      String tooLong,
      boolean anyTooLong) {}

  private static final int MOST_NAMED = 6;

  /** Null where nobody has given a size of anything. */
  static @Nullable PackPanel of(List<PackFit> fits) {
    return fits.stream().noneMatch(PackFit::known)
        ? null
        : new PackPanel(fits.stream().map(PackPanel::row).toList());
  }

  private static Row row(PackFit fit) {
    Packing.Bearer carrier = fit.carrier();
    PackedSize pack = carrier == null ? PackedSize.UNKNOWN : carrier.pack();
    return new Row(
        carrier == null ? null : carrier.name(),
        (fit.withoutVolume().isEmpty() ? "" : "at least ") + fit.sum(),
        pack.volumeTyped(),
        fit.fits() == null
            ? "whether it goes in is not known"
            : fit.fits() ? "it goes in, by the sum" : "it does not go in, by the sum",
        fit.withoutVolume().isEmpty() ? null : missing(fit.withoutVolume()),
        tooLong(fit, pack.lengthTyped()),
        !fit.tooLong().isEmpty());
  }

  private static String missing(List<Piece> pieces) {
    return pieces.stream().limit(MOST_NAMED).map(Piece::code).collect(Collectors.joining(", "))
        + (pieces.size() > MOST_NAMED ? " and " + (pieces.size() - MOST_NAMED) + " more" : "");
  }

  private static String tooLong(PackFit fit, @Nullable String inside) {
    if (inside == null) {
      return "What is too long for it is not known, for nobody has said how long it is inside.";
    }
    int unknown = fit.withoutLength().size();
    return "Too long for "
        + inside
        + ": "
        + (!fit.tooLong().isEmpty()
            ? fit.tooLong().stream()
                .map(each -> each.piece().name() + " (" + each.packed() + ")")
                .collect(Collectors.joining(", "))
            : unknown == fit.things() ? "not known" : "nothing of known length")
        + (unknown == 0 ? "." : "; of " + unknown + " of " + fit.things() + " no length is given.");
  }
}
