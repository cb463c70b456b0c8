package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.part.Calculation;
import org.tareline.part.CutLine;
import org.tareline.part.CutSize;
import org.tareline.part.Part;
import org.tareline.site.json.EstimateJson;
import org.tareline.units.Unit;

/**
 * A cut list in an answer, as it was typed.
 *
 * @param cuttingTolerance as typed; left out where common practice, ± 3 mm, serves
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record CutListJson(@Nullable String cuttingTolerance, List<Line> lines) {

  /**
   * A line, with its sizes as typed; a bare length is in millimetres.
   *
   * @param id by which a line stays the same when it is sent again
   * @param removed true, or left out: it is cut away
   * @param calculated what it adds to the mass
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Line(
      String id,
      @Nullable String name,
      String kind,
      @Nullable String shape,
      String material,
      int quantity,
      @Nullable Boolean removed,
      @Nullable String stitch,
      @Nullable String length,
      @Nullable String width,
      @Nullable String base,
      @Nullable String top,
      @Nullable String height,
      @Nullable String depth,
      @Nullable String chord,
      @Nullable String lengthAllowance,
      @Nullable String widthAllowance,
      @Nullable String allowance,
      @Nullable String seamThickness,
      @Nullable String stitchLength,
      @Nullable String ratio,
      @Nullable String mass,
      @Nullable String area,
      @Nullable String loft,
      @Nullable String fillPower,
      EstimateJson calculated,
      @Nullable WeighedJson weighed) {}

  /**
   * What the pieces of a line weigh by the scale; counts in place of what is calculated.
   *
   * @param id of the weighing, by which it is struck out
   * @param changed true, or left out: something else is cut since
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record WeighedJson(
      String id, String weighedAt, EstimateJson estimate, @Nullable Boolean changed) {

    static @Nullable WeighedJson of(Calculation.@Nullable Weighed weighed, Unit unit) {
      return weighed == null
          ? null
          : new WeighedJson(
              weighed.weighing().uuid().toString(),
              weighed.weighing().weighedAt().toString(),
              EstimateJson.of(weighed.estimate(), Basis.WEIGHED, 0, List.of(), unit),
              weighed.changed() ? true : null);
    }
  }

  static @Nullable CutListJson of(Part part, @Nullable Calculation calculation, Unit unit) {
    return calculation == null
        ? null
        : new CutListJson(
            part.cuttingToleranceTyped().orElse(null),
            calculation.lines().stream().map(line -> line(calculation, line, unit)).toList());
  }

  private static Line line(Calculation calculation, Calculation.Line line, Unit unit) {
    CutLine cut = line.line();
    return new Line(
        cut.uuid().toString(),
        cut.name().orElse(null),
        cut.form().kind(),
        cut.form().shape().orElse(null),
        line.material().code(),
        cut.quantity(),
        cut.removed() ? true : null,
        typed(cut, CutSize.STITCH_LENGTH) == null ? null : "301",
        typed(cut, CutSize.LENGTH),
        typed(cut, CutSize.WIDTH),
        typed(cut, CutSize.BASE),
        typed(cut, CutSize.TOP),
        typed(cut, CutSize.HEIGHT),
        typed(cut, CutSize.DEPTH),
        typed(cut, CutSize.CHORD),
        typed(cut, CutSize.LENGTH_ALLOWANCE),
        typed(cut, CutSize.WIDTH_ALLOWANCE),
        typed(cut, CutSize.ALLOWANCE),
        typed(cut, CutSize.SEAM_THICKNESS),
        typed(cut, CutSize.STITCH_LENGTH),
        typed(cut, CutSize.RATIO),
        typed(cut, CutSize.MASS),
        typed(cut, CutSize.AREA),
        typed(cut, CutSize.LOFT),
        typed(cut, CutSize.FILL_POWER),
        EstimateJson.of(
            calculation.list().estimate(List.of(line.cut())), Basis.CALCULATED, 1, List.of(), unit),
        WeighedJson.of(line.weighed(), unit));
  }

  private static @Nullable String typed(CutLine line, CutSize size) {
    return line.typed().get(size);
  }
}
