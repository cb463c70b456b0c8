package org.tareline.trip;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.tareline.part.PackedSize;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * Whether base and consumables go into a pack at the start, by the sum of their packed volumes and
 * by what is too long. What is soft gives way and gaps stay open, so that the sum is a guide
 * (common practice, no source).
 *
 * @param carrier whose pack it is; null where nobody is named, and then the pack is not known
 * @param things how many distinct things are in it
 * @param millilitres the sum of what is known
 * @param withoutVolume the distinct things whose packed volume is not known
 * @param fits null where it is not known: the pack's volume is not, or that of something in it is
 *     not and the rest goes in
 * @param tooLong the distinct things that are longer than what goes into the pack
 * @param withoutLength the distinct things whose packed length is not known
 */
public record PackFit(
    Packing.@Nullable Bearer carrier,
    int things,
    BigDecimal millilitres,
    List<Piece> withoutVolume,
    @Nullable Boolean fits,
    List<TooLong> tooLong,
    List<Piece> withoutLength) {

  /**
   * A thing that is too long.
   *
   * @param packed as it was typed
   */
  public record TooLong(Piece piece, String packed) {}

  private static final MathContext SHOWN = new MathContext(3, RoundingMode.HALF_EVEN);

  /** Of each carrier, in their order; one of all where nobody is named. */
  public static List<PackFit> of(Packing packing, Weights weights) {
    return weights.byCarrier().isEmpty()
        ? List.of(of(null, weights.totalPack().leaves(), packing))
        : weights.byCarrier().stream()
            .map(share -> of(share.carrier(), share.figures().totalPack().leaves(), packing))
            .toList();
  }

  private static PackFit of(Packing.@Nullable Bearer carrier, List<Leaf> leaves, Packing packing) {
    PackedSize pack = carrier == null ? PackedSize.UNKNOWN : carrier.pack();
    BigDecimal sum = BigDecimal.ZERO;
    for (Leaf leaf : leaves) {
      BigDecimal each = packing.kind(leaf.piece()).packed().millilitres();
      if (each != null) {
        sum = sum.add(each.multiply(BigDecimal.valueOf(leaf.multiplicity())));
      }
    }
    List<Piece> pieces = distinct(leaves.stream().map(Leaf::piece).toList());
    List<Piece> withoutVolume =
        only(pieces, piece -> packing.kind(piece).packed().millilitres() == null);
    List<TooLong> tooLong = new ArrayList<>();
    Length inside = pack.length();
    for (Piece piece : pieces) {
      PackedSize packed = packing.kind(piece).packed();
      Length length = packed.length();
      if (inside != null && length != null && length.compareTo(inside) > 0) {
        tooLong.add(new TooLong(piece, String.valueOf(packed.lengthTyped())));
      }
    }
    return new PackFit(
        carrier,
        pieces.size(),
        sum,
        withoutVolume,
        fits(pack.millilitres(), sum, withoutVolume.isEmpty()),
        tooLong,
        only(pieces, piece -> packing.kind(piece).packed().length() == null));
  }

  /** The same piece is another object where it is one of a handful of another size. */
  private static List<Piece> distinct(List<Piece> pieces) {
    Set<String> seen = new HashSet<>();
    return only(pieces, piece -> seen.add(piece.id()));
  }

  private static List<Piece> only(List<Piece> pieces, Predicate<Piece> which) {
    return pieces.stream().filter(which).toList();
  }

  private static @Nullable Boolean fits(
      @Nullable BigDecimal pack, BigDecimal sum, boolean allKnown) {
    return pack == null
        ? null
        : sum.compareTo(pack) > 0 ? Boolean.FALSE : allKnown ? Boolean.TRUE : null;
  }

  /** Whether anything is known that could be said of it. */
  public boolean known() {
    return withoutVolume.size() < things
        || withoutLength.size() < things
        || carrier != null && !carrier.pack().equals(PackedSize.UNKNOWN);
  }

  /** The sum in the unit that the pack is given in, else in litres: {@code 48.2 L}. */
  public String sum() {
    return said(millilitres);
  }

  /** By how much the sum is more than the pack takes. */
  String excess() {
    BigDecimal pack = carrier == null ? null : carrier.pack().millilitres();
    return said(pack == null ? BigDecimal.ZERO : millilitres.subtract(pack));
  }

  private String said(BigDecimal volume) {
    String typed = carrier == null ? null : carrier.pack().volumeTyped();
    Unit unit = typed == null ? Unit.LITRE : Quantity.read(typed, Kind.VOLUME, null).unit();
    BigDecimal value =
        new BigDecimal(Quantity.of(volume.toPlainString(), Unit.MILLILITRE).in(unit).value())
            .round(SHOWN);
    return (value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString())
        + "\u00a0"
        + unit.symbol();
  }
}
