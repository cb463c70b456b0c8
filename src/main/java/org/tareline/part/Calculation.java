package org.tareline.part;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.tareline.cutting.Cut;
import org.tareline.cutting.CutList;
import org.tareline.cutting.Stock;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Estimate;
import org.tareline.material.Material;

/**
 * A part's cut list, worked out.
 *
 * @param lines in their order
 */
public record Calculation(List<Line> lines, CutList list) {

  /** A line with its material and what is cut. */
  public record Line(CutLine line, Material material, Cut cut) {}

  static Calculation of(
      Part part, List<CutLine> lines, Map<Long, Material> materials, Map<Long, Stock> stocks) {
    List<Line> worked = new ArrayList<>();
    for (CutLine line : lines) {
      Material material = Objects.requireNonNull(materials.get(line.materialId()));
      Stock stock = stocks.get(material.id());
      worked.add(
          new Line(line, material, line.cut(stock == null ? weighedOut(material.code()) : stock)));
    }
    return new Calculation(
        List.copyOf(worked),
        new CutList(
            "part:" + part.uuid(),
            worked.stream().map(Line::cut).toList(),
            part.cuttingTolerance()));
  }

  /** A filling is weighed out: what stands in for its stock weighs a gram for each gram of it. */
  static Stock weighedOut(String code) {
    return new Stock(code, code, Per.PIECE, 1, 0, Double.POSITIVE_INFINITY);
  }

  /** What the part will weigh. */
  public Estimate estimate() {
    return list.estimate();
  }

  /** What a line adds to it. */
  public Estimate estimate(Line line) {
    return list.estimate(List.of(line.cut()));
  }
}
