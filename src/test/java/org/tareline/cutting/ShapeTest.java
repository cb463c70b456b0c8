package org.tareline.cutting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.tareline.cutting.Shape.Ellipse;
import org.tareline.cutting.Shape.ParabolicEdges;
import org.tareline.cutting.Shape.ParabolicSegment;
import org.tareline.cutting.Shape.Point;
import org.tareline.cutting.Shape.Rectangle;
import org.tareline.cutting.Shape.Trapezoid;
import org.tareline.cutting.Shape.Triangle;

class ShapeTest {

  static Stream<Shape> shapes() {
    Random random = new Random(41);
    return Stream.generate(
            () -> {
              double a = 0.1 + 3 * random.nextDouble();
              double b = 0.1 + 2 * random.nextDouble();
              double c = 0.05 + random.nextDouble();
              return List.<Shape>of(
                  new Rectangle(a, b),
                  new Trapezoid(a, c, b),
                  new Triangle(a, b),
                  new Ellipse(a, b),
                  new ParabolicEdges(a, b, b * 0.49 * random.nextDouble()),
                  new ParabolicSegment(a, c));
            })
        .limit(20)
        .flatMap(List::stream);
  }

  @ParameterizedTest
  @MethodSource("shapes")
  void area_and_edge_are_those_of_the_outline_that_is_drawn(Shape shape) {
    List<Point> outline = shape.outline(4_000);

    // Polygons inscribed in a curve come nearer with the square of the steps: 1e-6 of a metre here.
    assertThat(area(outline)).isCloseTo(shape.area(), within(2e-6));
    assertThat(length(outline)).isCloseTo(shape.perimeter(), within(2e-6));
  }

  @ParameterizedTest
  @MethodSource("shapes")
  void it_fits_its_box_and_touches_all_sides_of_it(Shape shape) {
    List<Point> outline = shape.outline(64);

    assertThat(outline.stream().mapToDouble(Point::along).min().orElseThrow())
        .isCloseTo(0, within(1e-9));
    assertThat(outline.stream().mapToDouble(Point::across).min().orElseThrow())
        .isCloseTo(0, within(1e-9));
    assertThat(outline.stream().mapToDouble(Point::along).max().orElseThrow())
        .isCloseTo(shape.length(), within(1e-9));
    assertThat(outline.stream().mapToDouble(Point::across).max().orElseThrow())
        .isCloseTo(shape.width(), within(1e-9));
  }

  @ParameterizedTest(name = "span {0}, sag {1}: {2}")
  @CsvSource({
    // REFERENCES J2.38 to J2.40: parabola of span L and sag s, exact length (derived there).
    "4, 0.2, 4.0265089",
    "3.35, 0.1, 3.3579433",
    "10, 1, 10.2606063"
  })
  void a_parabola_is_as_long_as_the_shallow_cables_of_the_textbooks(
      double span, double sag, double length) {
    assertThat(Parabola.arc(span, sag)).isCloseTo(length, within(5e-8));
  }

  @Test
  void a_circle_is_an_ellipse_whose_axes_are_alike() {
    assertThat(new Ellipse(2, 2).perimeter()).isCloseTo(2 * Math.PI, within(1e-14));
    assertThat(new Ellipse(2, 2).area()).isCloseTo(Math.PI, within(1e-14));
  }

  @Test
  void an_ellipse_is_as_long_as_the_tables_of_the_elliptic_integral_say() {
    // 4 a E(k) with k = 0.5: E = 1.46746 22093 (Abramowitz and Stegun, table 17.1, alpha = 30°).
    double b = Math.sqrt(1 - 0.25);
    assertThat(new Ellipse(2, 2 * b).perimeter()).isCloseTo(4 * 1.4674622093, within(1e-9));
    assertThat(new Ellipse(2 * b, 2).perimeter()).isCloseTo(4 * 1.4674622093, within(1e-9));
  }

  @Test
  void edges_that_would_cross_and_sizes_of_nothing_are_refused() {
    assertThatThrownBy(() -> new ParabolicEdges(3, 1.2, 0.6))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("cross");
    assertThatThrownBy(() -> new Rectangle(0, 1)).hasMessageContaining("length");
    assertThatThrownBy(() -> new Trapezoid(1, -1, 1)).hasMessageContaining("top");
    assertThatThrownBy(() -> new Triangle(Double.NaN, 1)).hasMessageContaining("base");
    assertThatThrownBy(() -> new Ellipse(1, Double.POSITIVE_INFINITY))
        .hasMessageContaining("width");
  }

  /** The shoelace formula. */
  private static double area(List<Point> outline) {
    double twice = 0;
    for (int i = 0; i < outline.size(); i++) {
      Point here = outline.get(i);
      Point next = outline.get((i + 1) % outline.size());
      twice += here.along() * next.across() - next.along() * here.across();
    }
    return Math.abs(twice) / 2;
  }

  private static double length(List<Point> outline) {
    double length = 0;
    for (int i = 0; i < outline.size(); i++) {
      Point here = outline.get(i);
      Point next = outline.get((i + 1) % outline.size());
      length += Math.hypot(next.along() - here.along(), next.across() - here.across());
    }
    return length;
  }
}
