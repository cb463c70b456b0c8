package org.tareline.part;

import jakarta.persistence.Embeddable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * The room that a thing takes when it is packed, or that a pack has: exact, and as it was typed.
 *
 * @param millilitres half-even to ten decimals; null where it is not known
 * @param nanometres the longest that it is, or that goes in; null where it is not known
 */
@Embeddable
public record PackedSize(
    @Nullable BigDecimal millilitres,
    @Nullable String volumeTyped,
    @Nullable Long nanometres,
    @Nullable String lengthTyped) {

  /** Of which nothing is known. */
  public static final PackedSize UNKNOWN = new PackedSize(null, null, null, null);

  private static final int DECIMALS = 10;

  /** A size as somebody typed it; either may be left out. */
  public record Entry(@Nullable String volume, @Nullable String length) {

    public static final Entry EMPTY = new Entry(null, null);
  }

  /**
   * Reads the size of a thing or of a pack.
   *
   * @param named what the names of the two fields begin with: {@code packed}, {@code pack}
   * @param none whether the volume may be nothing, of what takes none of a pack
   */
  public static PackedSize read(Faults faults, String named, boolean none, Entry entry) {
    String volume =
        faults.optionalText(named + "Volume", entry.volume(), "the " + words(named, "volume"), 200);
    String length =
        faults.optionalText(named + "Length", entry.length(), "the " + words(named, "length"), 200);
    return new PackedSize(
        volume == null ? null : faults.read(named + "Volume", () -> millilitres(volume, none)),
        volume,
        length == null
            ? null
            : faults.read(
                named + "Length",
                () -> Quantity.read(length, Kind.LENGTH, null).positive().length().nanometres()),
        length);
  }

  private static String words(String named, String of) {
    return named.substring(named.lastIndexOf('.') + 1) + " " + of;
  }

  private static BigDecimal millilitres(String typed, boolean none) {
    Quantity read = Quantity.read(typed, Kind.VOLUME, null);
    return new BigDecimal((none ? read.notNegative() : read.positive()).in(Unit.MILLILITRE).value())
        .setScale(DECIMALS, RoundingMode.HALF_EVEN);
  }

  /** Whether it comes to the same figures. */
  boolean saysAs(PackedSize other) {
    return Objects.equals(nanometres, other.nanometres)
        && (millilitres == null || other.millilitres == null
            ? millilitres == other.millilitres
            : millilitres.compareTo(other.millilitres) == 0);
  }

  public @Nullable Length length() {
    return nanometres == null ? null : new Length(nanometres);
  }
}
