package org.tareline.cutting;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Pieces laid on a roll of cloth, each in the box it fits in, side by side in rows: the longest
 * first, a row as long as its first piece (next-fit decreasing height; Coffman, Garey, Johnson and
 * Tarjan 1980). A plain way that wants more cloth than a patient hand would: its length is an upper
 * bound on what has to be bought.
 *
 * @param metres how much of the roll the rows take
 * @param places where each piece lies
 * @param tooWide pieces that do not fit across the roll either way, and have to be pieced
 */
public record Nesting(double metres, List<Place> places, List<Piece> tooWide) {

  /** Keeps three pieces of half a metre in one and a half: below what anybody can cut, in m. */
  private static final double SLACK = 1e-9;

  /**
   * The box of a piece, in m.
   *
   * @param name for the drawing
   */
  public record Piece(String name, double length, double width) {}

  /**
   * A piece on the roll, in m from its beginning and from one edge.
   *
   * @param turned whether its width lies along the roll
   */
  public record Place(Piece piece, double along, double across, boolean turned) {

    /** How much of the roll's length it takes. */
    public double length() {
      return turned ? piece.width() : piece.length();
    }

    /** How much of the roll's width it takes. */
    public double width() {
      return turned ? piece.length() : piece.width();
    }
  }

  /**
   * Lays pieces on a roll. One is turned only where it would not fit otherwise, for cloth stretches
   * more one way than the other.
   *
   * @param usableWidth of the roll, in m, above 0
   */
  public static Nesting of(List<Piece> pieces, double usableWidth) {
    if (!(usableWidth > 0 && usableWidth < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("The usable width has to be above 0.");
    }
    List<Place> loose = new ArrayList<>();
    List<Piece> tooWide = new ArrayList<>();
    for (Piece piece : pieces) {
      boolean turned = piece.width() > usableWidth + SLACK;
      if (turned && piece.length() > usableWidth + SLACK) {
        tooWide.add(piece);
      } else {
        loose.add(new Place(piece, 0, 0, turned));
      }
    }
    loose.sort(Comparator.comparingDouble(Place::length).reversed());
    List<Place> places = new ArrayList<>();
    double row = 0;
    double rowLength = 0;
    double across = 0;
    for (Place place : loose) {
      if (across + place.width() > usableWidth + SLACK) {
        row += rowLength;
        rowLength = 0;
        across = 0;
      }
      rowLength = Math.max(rowLength, place.length());
      places.add(new Place(place.piece(), row, across, place.turned()));
      across += place.width();
    }
    return new Nesting(row + rowLength, List.copyOf(places), List.copyOf(tooWide));
  }
}
