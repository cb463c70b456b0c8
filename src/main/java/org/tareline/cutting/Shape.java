package org.tareline.cutting;

import java.util.ArrayList;
import java.util.List;

/**
 * The outline of a cut piece, allowances included, in metres. Its length lies along the roll, its
 * width across it. Trapezoids and triangles are taken as symmetrical, which matters to the
 * perimeter and not to the area.
 */
public sealed interface Shape {

  /** A corner of an outline, from one corner of the box that the piece fits in. */
  record Point(double along, double across) {}

  /** The area in m². */
  double area();

  /**
   * The length of its edge in m, and so by how much its area grows for each metre that the whole
   * edge is off outwards.
   */
  double perimeter();

  /** How long the box is that it fits in, along the roll, in m. */
  double length();

  /** How wide the box is that it fits in, across the roll, in m. */
  double width();

  /**
   * The outline as a closed polygon.
   *
   * @param steps into how many straight pieces a curve is taken apart; 1 or more
   */
  List<Point> outline(int steps);

  /** A rectangle. */
  record Rectangle(double length, double width) implements Shape {

    /**
     * @throws IllegalArgumentException if a side is not above 0
     */
    public Rectangle {
      positive("length", length);
      positive("width", width);
    }

    @Override
    public double area() {
      return length * width;
    }

    @Override
    public double perimeter() {
      return 2 * (length + width);
    }

    @Override
    public List<Point> outline(int steps) {
      return List.of(
          new Point(0, 0), new Point(length, 0), new Point(length, width), new Point(0, width));
    }
  }

  /** A trapezoid whose parallel sides, base and top, lie along the roll. */
  record Trapezoid(double base, double top, double height) implements Shape {

    /**
     * @throws IllegalArgumentException if a side is not above 0
     */
    public Trapezoid {
      positive("base", base);
      positive("top", top);
      positive("height", height);
    }

    @Override
    public double area() {
      return (base + top) / 2 * height;
    }

    @Override
    public double perimeter() {
      return base + top + 2 * Math.hypot((base - top) / 2, height);
    }

    @Override
    public double length() {
      return Math.max(base, top);
    }

    @Override
    public double width() {
      return height;
    }

    @Override
    public List<Point> outline(int steps) {
      double middle = length() / 2;
      return List.of(
          new Point(middle - base / 2, 0),
          new Point(middle + base / 2, 0),
          new Point(middle + top / 2, height),
          new Point(middle - top / 2, height));
    }
  }

  /** A triangle whose base lies along the roll. */
  record Triangle(double base, double height) implements Shape {

    /**
     * @throws IllegalArgumentException if a side is not above 0
     */
    public Triangle {
      positive("base", base);
      positive("height", height);
    }

    @Override
    public double area() {
      return base * height / 2;
    }

    @Override
    public double perimeter() {
      return base + 2 * Math.hypot(base / 2, height);
    }

    @Override
    public double length() {
      return base;
    }

    @Override
    public double width() {
      return height;
    }

    @Override
    public List<Point> outline(int steps) {
      return List.of(new Point(0, 0), new Point(base, 0), new Point(base / 2, height));
    }
  }

  /** An ellipse, or a circle where both axes are alike. */
  record Ellipse(double length, double width) implements Shape {

    /**
     * @throws IllegalArgumentException if an axis is not above 0
     */
    public Ellipse {
      positive("length", length);
      positive("width", width);
    }

    @Override
    public double area() {
      return Math.PI / 4 * length * width;
    }

    /**
     * By the arithmetic-geometric mean, which gives the complete elliptic integral to the last
     * digits of a double (Abramowitz and Stegun, 17.6.3 and 17.6.4; from memory).
     */
    @Override
    public double perimeter() {
      double major = Math.max(length, width) / 2;
      double minor = Math.min(length, width) / 2;
      double a = 1;
      double b = minor / major;
      double weight = 0.5;
      double sum = weight * (1 - b * b);
      while (a - b > 1e-15) {
        double difference = (a - b) / 2;
        double next = (a + b) / 2;
        b = Math.sqrt(a * b);
        a = next;
        weight *= 2;
        sum += weight * difference * difference;
      }
      return 2 * Math.PI * major * (1 - sum) / a;
    }

    @Override
    public List<Point> outline(int steps) {
      List<Point> points = new ArrayList<>();
      int corners = 4 * steps;
      for (int i = 0; i < corners; i++) {
        double angle = 2 * Math.PI * i / corners;
        points.add(
            new Point(length / 2 * (1 - Math.cos(angle)), width / 2 * (1 - Math.sin(angle))));
      }
      return points;
    }
  }

  /**
   * A rectangle both of whose long edges are cut away as parabolas, deepest in the middle: the body
   * of a bridge-type hang.
   *
   * @param depth how deep each is cut, of the cut piece
   */
  record ParabolicEdges(double length, double width, double depth) implements Shape {

    /**
     * @throws IllegalArgumentException if a size is not above 0, or the two edges would meet
     */
    public ParabolicEdges {
      positive("length", length);
      positive("width", width);
      positive("depth", depth);
      if (2 * depth >= width) {
        throw new IllegalArgumentException(
            "The two edges would cross: twice the depth has to be less than the width.");
      }
    }

    @Override
    public double area() {
      return length * width - 2 * Parabola.area(length, depth);
    }

    @Override
    public double perimeter() {
      return 2 * (width + Parabola.arc(length, depth));
    }

    @Override
    public List<Point> outline(int steps) {
      List<Point> points = new ArrayList<>();
      for (int i = 0; i <= steps; i++) {
        double along = length * i / steps;
        points.add(new Point(along, Parabola.height(length, depth, along)));
      }
      for (int i = steps; i >= 0; i--) {
        double along = length * i / steps;
        points.add(new Point(along, width - Parabola.height(length, depth, along)));
      }
      return points;
    }
  }

  /**
   * What a parabola cuts off from a straight edge.
   *
   * @param chord the straight edge, along the roll
   * @param depth of the cut piece
   */
  record ParabolicSegment(double chord, double depth) implements Shape {

    /**
     * @throws IllegalArgumentException if a size is not above 0
     */
    public ParabolicSegment {
      positive("chord", chord);
      positive("depth", depth);
    }

    @Override
    public double area() {
      return Parabola.area(chord, depth);
    }

    @Override
    public double perimeter() {
      return chord + Parabola.arc(chord, depth);
    }

    @Override
    public double length() {
      return chord;
    }

    @Override
    public double width() {
      return depth;
    }

    @Override
    public List<Point> outline(int steps) {
      List<Point> points = new ArrayList<>();
      for (int i = 0; i <= steps; i++) {
        double along = chord * i / steps;
        points.add(new Point(along, Parabola.height(chord, depth, along)));
      }
      return points;
    }
  }

  private static void positive(String what, double metres) {
    if (!(metres > 0 && metres < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("The " + what + " has to be above 0.");
    }
  }
}
