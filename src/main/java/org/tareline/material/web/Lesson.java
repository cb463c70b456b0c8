package org.tareline.material.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.material.Learning;
import org.tareline.material.Material;
import org.tareline.material.MaterialMass;
import org.tareline.material.Taken;
import org.tareline.site.Figure;
import org.tareline.site.Moments;
import org.tareline.units.MassStyle;

/**
 * What parts say of a material that were weighed once they were made.
 *
 * @param words the ratio of all of them together, as sentences
 * @param offer what it would be taken to weigh
 * @param offered whether that is not in use already
 * @param unit of the columns of masses
 * @param disagree that the parts do not agree, and what follows; null where they do
 */
record Lesson(
    String words,
    String offer,
    boolean offered,
    String unit,
    @Nullable String disagree,
    List<OfPart> parts) {

  /** Below this share two learned masses are one and the same, rounded twice. */
  private static final double SAME = 1e-9;

  private static final int MOST_DIGITS = 4;
  private static final int TAKEN_DIGITS = 3;

  /** What one part says. */
  record OfPart(
      String code,
      String name,
      Figure calculated,
      Figure weighed,
      String ratio,
      String plusMinus,
      String share) {}

  static Lesson of(Material material, Learning.Learned learned, MassStyle style) {
    List<Learning.Part> parts = learned.parts();
    List<Estimate> masses =
        parts.stream()
            .flatMap(part -> Stream.of(part.made().calculated(), part.made().weighed()))
            .toList();
    int decimals = Figure.decimals(masses, style);
    int digits =
        parts.stream().mapToInt(part -> digits(part.expandedUncertainty())).max().orElse(0);
    int digitsOfAll = digits(learned.expandedUncertainty());
    PerFigure offer = PerFigure.of(learned.mass(), style);
    return new Lesson(
        (parts.size() == 1 ? "The part" : "The " + parts.size() + " parts")
            + " of which it is most of the mass, and that "
            + (parts.size() == 1 ? "was" : "were")
            + " weighed, "
            + (parts.size() == 1 ? "weighs " : "weigh ")
            + decimal(learned.ratio(), digitsOfAll)
            + " ± "
            + decimal(learned.expandedUncertainty(), digitsOfAll)
            + " times what "
            + (parts.size() == 1 ? "its cut list comes" : "their cut lists come")
            + " to by "
            + words(learned.against())
            + (learned.told()
                ? ". That is more than weighing and cutting explain."
                : ". No difference can be told."),
        offer.sentence(),
        material
            .taken()
            .map(taken -> taken.grams().subtract(learned.mass().grams()).abs())
            .map(off -> off.doubleValue() > SAME * learned.mass().grams().doubleValue())
            .orElse(true),
        style.heading(),
        learned.agree()
            ? null
            : "The parts do not agree: they are further apart than weighing and cutting explain. The ± of what they"
                + " say together is as large as they are scattered. A size that was typed wrong, or a part that has"
                + " more in it than its cut list says, would look like this.",
        parts.stream()
            .map(
                part ->
                    new OfPart(
                        part.made().thing().code(),
                        part.made().thing().name(),
                        Figure.of(part.made().calculated(), style, decimals),
                        Figure.of(part.made().weighed(), style, decimals),
                        decimal(part.ratio(), digits),
                        "± " + decimal(part.expandedUncertainty(), digits),
                        Math.round(100 * part.share()) + "\u00a0%"))
            .toList());
  }

  /** That what was learned is in use, and since when. */
  static String taken(Taken taken, Moments moments) {
    return "Cut lists use what was learned from "
        + parts(taken.parts())
        + " and taken on "
        + moments.day(taken.at())
        + ", "
        + decimal(taken.ratio(), TAKEN_DIGITS)
        + " times "
        + words(taken.against())
        + ". Parts are still held against "
        + words(taken.against())
        + ", so that it does not learn from itself.";
  }

  private static String words(MaterialMass.Use against) {
    return against == MaterialMass.Use.NOMINAL ? "what is printed" : "what its swatches weigh";
  }

  static String parts(int parts) {
    return parts == 1 ? "one part" : parts + " parts";
  }

  /** Enough decimals to show one figure of an uncertainty, or two where the first is a 1. */
  private static int digits(double uncertainty) {
    if (uncertainty == 0) {
      return MOST_DIGITS;
    }
    BigDecimal two = new BigDecimal(uncertainty).round(new MathContext(2));
    BigDecimal shown =
        two.unscaledValue().toString().startsWith("1") ? two : two.round(new MathContext(1));
    return Math.max(0, Math.min(MOST_DIGITS, shown.scale()));
  }

  private static String decimal(double number, int digits) {
    return new BigDecimal(number).setScale(digits, RoundingMode.HALF_EVEN).toPlainString();
  }
}
