package org.tareline.cutting;

import org.tareline.cutting.Stock.Per;

/** A line of a cut list. */
public sealed interface Cut {

  Stock stock();

  /** What the line adds to the mass, in g; below 0 where something is cut away. */
  double grams();

  /**
   * By how many grams the line is heavier for each metre that all its cut edges are off outwards.
   */
  default double gramsPerMetreOfEdge() {
    return 0;
  }

  /**
   * Pieces of cloth.
   *
   * @param quantity 1 or more
   * @param removed whether they are cut out of something else, and so are not there
   */
  record Panel(Stock stock, Shape shape, int quantity, boolean removed) implements Cut {

    /**
     * @throws IllegalArgumentException if the stock is not by area or the quantity is below 1
     */
    public Panel {
      requirePer(stock, Per.SQUARE_METRE);
      requireQuantity(quantity);
    }

    @Override
    public double grams() {
      return sign() * quantity * shape.area() * stock.grams();
    }

    @Override
    public double gramsPerMetreOfEdge() {
      return sign() * quantity * shape.perimeter() * stock.grams();
    }

    private int sign() {
      return removed ? -1 : 1;
    }
  }

  /**
   * Lengths of cord, webbing or tape.
   *
   * @param metres of each, with what goes into buries and knots
   */
  record Run(Stock stock, double metres, int quantity) implements Cut {

    /**
     * @throws IllegalArgumentException if the stock is not by length, the length is not above 0 or
     *     the quantity is below 1
     */
    public Run {
      requirePer(stock, Per.METRE);
      requireQuantity(quantity);
      requireAbove0("length", metres);
    }

    @Override
    public double grams() {
      return quantity * metres * stock.grams();
    }
  }

  /**
   * The thread of a seam.
   *
   * @param metres of seam
   * @param ratio metres of thread for one of seam
   */
  record Seam(Stock stock, double metres, double ratio, int quantity) implements Cut {

    /**
     * Thread for one metre of seam: 2.5, half of it from the needle and half from the bobbin;
     * common practice, a table keyed to ISO 4915 that is widely reprinted.
     */
    public static final double PLANNING_RATIO = 2.5;

    /**
     * @throws IllegalArgumentException if the stock is not by length, a figure is not above 0 or
     *     the quantity is below 1
     */
    public Seam {
      requirePer(stock, Per.METRE);
      requireQuantity(quantity);
      requireAbove0("length", metres);
      requireAbove0("ratio", ratio);
    }

    /**
     * Thread for one metre of lockstitch (stitch type 301 of ISO 4915) by its geometry: 2 + 2 T S,
     * both threads together.
     *
     * @param thickness T of the seam, in m
     * @param stitchesPerMetre S
     */
    public static double lockstitch(double thickness, double stitchesPerMetre) {
      requireAbove0("thickness", thickness);
      requireAbove0("number of stitches", stitchesPerMetre);
      return 2 + 2 * thickness * stitchesPerMetre;
    }

    @Override
    public double grams() {
      return quantity * metres * ratio * stock.grams();
    }
  }

  /** Pieces of hardware. */
  record Each(Stock stock, int quantity) implements Cut {

    /**
     * @throws IllegalArgumentException if the stock is not by the piece or the quantity is below 1
     */
    public Each {
      requirePer(stock, Per.PIECE);
      requireQuantity(quantity);
    }

    @Override
    public double grams() {
      return quantity * stock.grams();
    }
  }

  /**
   * A filling, by its mass.
   *
   * @param stock weighed out, so that what it weighs by itself does not matter; its relative
   *     uncertainty does
   */
  record Fill(Stock stock, double grams) implements Cut {

    /** 1 in³/oz in m³/g: 16.387064 cm³ over 28.349523125 g, both exact (NIST HB 44, App. C). */
    public static final double CUBIC_METRES_PER_GRAM = 16.387064e-6 / 28.349523125;

    /**
     * @throws IllegalArgumentException if the mass is not above 0
     */
    public Fill {
      requireAbove0("mass", grams);
    }

    /**
     * The mass that fills a volume.
     *
     * @param cubicMetres above 0
     * @param fillPower in³ of an ounce, above 0
     */
    public static double gramsFor(double cubicMetres, double fillPower) {
      requireAbove0("volume", cubicMetres);
      requireAbove0("fill power", fillPower);
      return cubicMetres / (fillPower * CUBIC_METRES_PER_GRAM);
    }
  }

  private static void requirePer(Stock stock, Per per) {
    if (stock.per() != per) {
      throw new IllegalArgumentException(
          stock.code()
              + " is known "
              + words(stock.per())
              + ", and is wanted "
              + words(per)
              + " here.");
    }
  }

  private static String words(Per per) {
    return switch (per) {
      case SQUARE_METRE -> "by the square metre";
      case METRE -> "by the metre";
      case PIECE -> "by the piece";
    };
  }

  private static void requireQuantity(int quantity) {
    if (quantity < 1) {
      throw new IllegalArgumentException("The quantity has to be 1 or more.");
    }
  }

  private static void requireAbove0(String what, double figure) {
    if (!(figure > 0 && figure < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("The " + what + " has to be above 0.");
    }
  }
}
