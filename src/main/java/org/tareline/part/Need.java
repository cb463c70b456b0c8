package org.tareline.part;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Cut;
import org.tareline.cutting.Nesting;
import org.tareline.cutting.Shape;
import org.tareline.evidence.Estimate;
import org.tareline.material.Material;
import org.tareline.material.Price;
import org.tareline.part.Calculation.Line;

/**
 * What a cut list wants of one material.
 *
 * @param estimate its part of the mass
 * @param squareMetres what is cut of cloth and stays; 0 of other things
 * @param metres of cord, webbing, tape or thread; 0 of other things
 * @param pieces of hardware; 0 of other things
 * @param nesting how cloth lies on its roll, an upper bound on what has to be bought; null where
 *     there is no cloth or no usable width is known
 * @param cost null where no price is known that says it
 */
public record Need(
    Material material,
    Estimate estimate,
    double squareMetres,
    double metres,
    int pieces,
    @Nullable Nesting nesting,
    @Nullable Cost cost) {

  /** Enough for a thousandth of a millimetre. */
  private static final int STOCK_DECIMALS = 6;

  /**
   * Money.
   *
   * @param amount rounded half-even to two decimals
   * @param currency three letters
   */
  public record Cost(BigDecimal amount, String currency) {

    /** As {@code 36.00 EUR}. */
    public String words() {
      return amount.toPlainString() + "\u00a0" + currency;
    }
  }

  /** What a cut list wants, by material in the order met. */
  public static List<Need> of(Calculation calculation) {
    Map<Long, List<Line>> byMaterial = new LinkedHashMap<>();
    for (Line line : calculation.lines()) {
      byMaterial.computeIfAbsent(line.material().id(), any -> new ArrayList<>()).add(line);
    }
    return byMaterial.values().stream().map(lines -> of(calculation, lines)).toList();
  }

  /**
   * Money by currency as words: {@code 36.00 EUR + 4.00 USD}; {@code not known} where there is
   * none.
   */
  public static String words(List<Cost> costs) {
    return costs.isEmpty()
        ? "not known"
        : costs.stream().map(Cost::words).collect(Collectors.joining(" + "));
  }

  /**
   * What has to be bought of one material for several things that are each cut by themselves, in
   * words. Along the roll it is an upper bound.
   *
   * @param counts how many times each is wanted
   */
  public static String toBuy(Map<Need, Long> counts) {
    double roll = 0;
    double squareMetres = 0;
    double metres = 0;
    long pieces = 0;
    Set<String> tooWide = new LinkedHashSet<>();
    for (Map.Entry<Need, Long> each : counts.entrySet()) {
      Need need = each.getKey();
      Nesting nesting = need.nesting();
      if (nesting == null) {
        squareMetres += each.getValue() * need.squareMetres();
      } else {
        roll += each.getValue() * nesting.metres();
        nesting.tooWide().forEach(piece -> tooWide.add(piece.name()));
      }
      metres += each.getValue() * need.metres();
      pieces += each.getValue() * need.pieces();
    }
    List<String> words = new ArrayList<>();
    if (roll > 0) {
      words.add(threeDecimals(roll) + "\u00a0m of the roll");
    }
    if (!tooWide.isEmpty()) {
      words.add("too wide for the roll, and to be pieced: " + String.join(", ", tooWide));
    }
    if (squareMetres > 0) {
      words.add(threeDecimals(squareMetres) + "\u00a0m², the usable width not known");
    }
    if (metres > 0) {
      words.add(threeDecimals(metres) + "\u00a0m");
    }
    if (pieces > 0) {
      words.add(String.valueOf(pieces));
    }
    return words.isEmpty() ? "by its mass" : String.join("; ", words);
  }

  private static String threeDecimals(double number) {
    return new BigDecimal(number).setScale(3, RoundingMode.HALF_EVEN).toPlainString();
  }

  /** What it costs, by currency in the order met, of all that have a price. */
  public static List<Cost> total(List<Need> needs) {
    Map<String, BigDecimal> sums = new LinkedHashMap<>();
    for (Need need : needs) {
      Cost cost = need.cost();
      if (cost != null) {
        sums.merge(cost.currency(), cost.amount(), BigDecimal::add);
      }
    }
    return sums.entrySet().stream().map(sum -> new Cost(sum.getValue(), sum.getKey())).toList();
  }

  /**
   * How much of the stock it takes: along the roll of cloth, along the spool, pieces or, of a
   * filling, grams. Nothing where the usable width is not known, or panels are too wide for it.
   */
  public Optional<BigDecimal> fromStock() {
    double amount =
        squareMetres == 0 && nesting == null
            ? metres > 0 ? metres : pieces > 0 ? pieces : estimate.value().inGrams()
            : nesting == null || !nesting.tooWide().isEmpty() ? 0 : nesting.metres();
    return amount <= 0
        ? Optional.empty()
        : Optional.of(
            new BigDecimal(amount)
                .setScale(STOCK_DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros());
  }

  /** What is left over of the cloth bought, in m²; nothing where that is not known. */
  public Optional<Double> offcut() {
    return nesting == null
        ? Optional.empty()
        : material.width().map(width -> nesting.metres() * width.inMetres() - squareMetres);
  }

  private static Need of(Calculation calculation, List<Line> lines) {
    Material material = lines.get(0).material();
    double squareMetres = 0;
    double metres = 0;
    int pieces = 0;
    List<Nesting.Piece> panels = new ArrayList<>();
    for (Line line : lines) {
      Cut cut = line.cut();
      if (cut instanceof Cut.Panel panel) {
        squareMetres += (panel.removed() ? -1 : 1) * panel.quantity() * panel.shape().area();
        if (!panel.removed()) {
          Shape shape = panel.shape();
          String name = line.line().name().orElse(line.line().form().words());
          for (int i = 0; i < panel.quantity(); i++) {
            panels.add(new Nesting.Piece(name, shape.length(), shape.width()));
          }
        }
      } else if (cut instanceof Cut.Run run) {
        metres += run.quantity() * run.metres();
      } else if (cut instanceof Cut.Seam seam) {
        metres += seam.quantity() * seam.metres() * seam.ratio();
      } else if (cut instanceof Cut.Each each) {
        pieces += each.quantity();
      }
    }
    Nesting nesting =
        panels.isEmpty()
            ? null
            : material.width().map(width -> Nesting.of(panels, width.inMetres())).orElse(null);
    Estimate estimate = calculation.estimate(lines);
    return new Need(
        material,
        estimate,
        squareMetres,
        metres,
        pieces,
        nesting,
        cost(material, estimate, squareMetres, metres, pieces, nesting));
  }

  private static @Nullable Cost cost(
      Material material,
      Estimate estimate,
      double squareMetres,
      double metres,
      int pieces,
      @Nullable Nesting nesting) {
    Price price = material.price().orElse(null);
    if (price == null) {
      return null;
    }
    double roll = nesting == null || !nesting.tooWide().isEmpty() ? 0 : nesting.metres();
    double rollArea = roll * material.width().map(width -> width.inMetres()).orElse(0.0);
    double amount =
        switch (price.unit().what()) {
          case AREA -> roll > 0 ? rollArea : squareMetres;
          case LENGTH -> roll > 0 ? roll : metres;
          case MASS -> estimate.value().inGrams();
          case COUNT -> pieces;
        };
    return amount <= 0
        ? null
        : new Cost(
            price
                .amount()
                .multiply(new BigDecimal(amount))
                .divide(price.of().multiply(price.unit().factor()), MathContext.DECIMAL64)
                .setScale(2, RoundingMode.HALF_EVEN),
            price.currency());
  }
}
