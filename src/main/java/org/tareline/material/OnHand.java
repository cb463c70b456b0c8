package org.tareline.material;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Stock.Per;
import org.tareline.site.Faults;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;

/**
 * How much of a material is on hand: what was counted last, with what was added since and without
 * what was cut since. Below nothing where more was cut than there was, which somebody has to look
 * into.
 *
 * @param amount null where nothing was ever counted or added
 * @param measure what it is counted in
 * @param typed as somebody typed it, where nothing came or went since
 */
public record OnHand(@Nullable BigDecimal amount, Measure measure, @Nullable String typed) {

  private static final int MOST_PIECES = 1_000_000;

  /** Decimals in words: millimetres, and thousandths of a gram. */
  private static final int SHOWN = 3;

  /** What a stock is counted in. */
  public enum Measure {
    /** Along the roll or the spool. */
    METRES("m", "12.5 m"),
    PIECES("1", "6"),
    GRAMS("g", "420 g");

    private final String unit;
    private final String example;

    Measure(String unit, String example) {
      this.unit = unit;
      this.example = example;
    }

    /** A UCUM code. */
    public String unit() {
      return unit;
    }

    /** Of a material; nothing as long as nobody said what its mass is for. */
    static @Nullable Measure of(@Nullable Per per, boolean filling) {
      return filling ? GRAMS : per == null ? null : per == Per.PIECE ? PIECES : METRES;
    }

    /** An amount in words, such as {@code 12.5 m}. */
    public String words(BigDecimal amount) {
      String number =
          amount.signum() == 0
              ? "0"
              : amount.stripTrailingZeros().toPlainString().replace("-", "−");
      return this == PIECES ? number : number + "\u00a0" + unit;
    }

    private static String plain(BigDecimal amount) {
      return amount.signum() == 0
          ? "0"
          : amount.stripTrailingZeros().toPlainString().replace("-", "−");
    }

    /** Reads an amount and notes a fault where it cannot. */
    @Nullable BigDecimal read(Faults faults, String field, String typed) {
      if (this == PIECES) {
        String number = typed.endsWith(" 1") ? typed.substring(0, typed.length() - 2) : typed;
        int read = faults.wholeNumber(field, number, "how many", 0, MOST_PIECES, -1);
        return read < 0 ? null : BigDecimal.valueOf(read);
      }
      Quantity read = faults.read(field, () -> quantity(typed).notNegative());
      return read == null ? null : amount(read);
    }

    /** An amount that was kept once, also one below nothing; null where it cannot be read. */
    @Nullable BigDecimal reread(String typed) {
      try {
        return this == PIECES
            ? new BigDecimal(typed.replace(" 1", ""))
            : amount(quantity(typed.replace("−", "-")));
      } catch (UnreadableQuantity | NumberFormatException unreadable) {
        return null;
      }
    }

    private Quantity quantity(String typed) {
      return Quantity.read(typed, this == GRAMS ? Kind.MASS : Kind.LENGTH, null);
    }

    private BigDecimal amount(Quantity read) {
      return new BigDecimal(read.in(this == GRAMS ? Unit.GRAM : Unit.METRE).value());
    }

    /** An amount as somebody would type it. */
    public String example() {
      return example;
    }
  }

  /**
   * Of a material.
   *
   * @param entries those that stand, oldest first
   */
  static Optional<OnHand> of(Material material, List<StockEntry> entries) {
    return material.measure().map(measure -> of(material, measure, entries));
  }

  private static OnHand of(Material material, Measure measure, List<StockEntry> entries) {
    BigDecimal amount = material.stockTyped().map(measure::reread).orElse(null);
    for (StockEntry entry : entries) {
      amount =
          switch (entry.kind()) {
            case COUNTED -> entry.amount();
            case ADDED -> (amount == null ? BigDecimal.ZERO : amount).add(entry.amount());
            case CUT -> amount == null ? null : amount.subtract(entry.amount());
          };
    }
    StockEntry last = entries.isEmpty() ? null : entries.get(entries.size() - 1);
    return new OnHand(
        amount,
        measure,
        last == null
            ? material.stockTyped().orElse(null)
            : last.kind() == StockEntry.Kind.COUNTED ? last.typed() : null);
  }

  /** In words, such as {@code 12.5 m}; {@code not counted} where nothing is known. */
  public String words() {
    return amount == null ? "not counted" : measure.words(amount);
  }

  /** As somebody typed it, or in words; nothing where it was never counted. */
  public String typedOrWords() {
    return amount == null ? "" : typed == null ? words() : typed;
  }

  /** Whether more was cut than there was. */
  public boolean overdrawn() {
    return amount != null && amount.signum() < 0;
  }

  /** Whether there is so much; nothing where it was never counted. */
  public Optional<Boolean> covers(BigDecimal wanted) {
    return Optional.ofNullable(amount).map(there -> there.compareTo(wanted) >= 0);
  }
}
