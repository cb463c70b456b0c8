package org.tareline.part;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Cut;
import org.tareline.cutting.CutList;
import org.tareline.cutting.Stock;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.material.Material;
import org.tareline.material.MaterialKind;
import org.tareline.weighing.Weighing;

/**
 * A part's cut list, worked out.
 *
 * @param lines in their order
 */
public record Calculation(List<Line> lines, CutList list) {

  /**
   * What the pieces of a line weigh by the scale.
   *
   * @param estimate of all of them
   * @param changed whether something else is cut since
   */
  public record Weighed(Weighing weighing, Estimate estimate, boolean changed) {}

  /**
   * A line with its material and what is cut.
   *
   * @param weighed null where it is calculated
   */
  public record Line(CutLine line, Material material, Cut cut, @Nullable Weighed weighed) {

    /** The sizes as typed; of a filling by its loft, with the fill power of its material. */
    public Map<CutSize, String> typed() {
      Map<CutSize, String> typed = line.typed();
      if (material.id() != line.materialId() && typed.containsKey(CutSize.FILL_POWER)) {
        material
            .fillPower()
            .ifPresent(power -> typed.put(CutSize.FILL_POWER, power.toPlainString()));
      }
      return typed;
    }
  }

  static Calculation of(
      Part part,
      List<CutLine> lines,
      Map<Long, Material> materials,
      Map<Long, Stock> stocks,
      Map<Long, Weighed> weighed) {
    List<Line> worked = new ArrayList<>();
    for (CutLine line : lines) {
      Material material = Objects.requireNonNull(materials.get(line.materialId()));
      Stock stock = stocks.get(material.id());
      worked.add(
          new Line(
              line,
              material,
              line.cut(stock == null ? weighedOut(material.code()) : stock),
              weighed.get(line.id())));
    }
    return new Calculation(
        List.copyOf(worked),
        new CutList(
            "part:" + part.uuid(),
            worked.stream().map(Line::cut).toList(),
            part.cuttingTolerance()));
  }

  /**
   * The same list with other materials in some lines.
   *
   * @param instead by the row of the material that they stand in for
   * @throws IllegalArgumentException if one of them cannot stand in a line
   */
  Calculation with(Map<Long, Material> instead, Map<Long, Stock> stocks) {
    List<Line> swapped = new ArrayList<>();
    for (Line line : lines) {
      Material other = instead.get(line.material().id());
      if (other == null) {
        swapped.add(line);
        continue;
      }
      Stock stock = stocks.get(other.id());
      Double fillPower = other.fillPower().map(BigDecimal::doubleValue).orElse(null);
      swapped.add(
          new Line(
              line.line(),
              other,
              line.line()
                  .cut(
                      stock == null ? weighedOut(other.code()) : stock,
                      size ->
                          size == CutSize.FILL_POWER
                                  && fillPower != null
                                  && line.line().amount(size) != null
                              ? fillPower
                              : line.line().amount(size)),
              null));
    }
    return new Calculation(
        List.copyOf(swapped),
        new CutList(list.id(), swapped.stream().map(Line::cut).toList(), list.cuttingTolerance()));
  }

  /** A filling is weighed out: what stands in for its stock weighs a gram for each gram of it. */
  static Stock weighedOut(String code) {
    return new Stock(code, code, Per.PIECE, 1, 0, Double.POSITIVE_INFINITY);
  }

  /** What the part will weigh: the lines that were weighed as they were, the others calculated. */
  public Estimate estimate() {
    return estimate(lines);
  }

  /** What some of its lines add to it. */
  Estimate estimate(List<Line> some) {
    List<Estimate> sum = new ArrayList<>();
    List<Cut> calculated = new ArrayList<>();
    for (Line line : some) {
      if (line.weighed() == null) {
        calculated.add(line.cut());
      } else {
        sum.add(line.weighed().estimate());
      }
    }
    sum.add(list.estimate(calculated));
    return Estimate.sum(sum);
  }

  /**
   * What the weakest of the cord and webbing in it holds; nothing where there is none, or where one
   * of them is not known.
   */
  Optional<Strength> strength() {
    Strength weakest = null;
    for (Line line : lines) {
      MaterialKind kind = line.material().kind();
      if (kind != MaterialKind.CORD && kind != MaterialKind.WEBBING) {
        continue;
      }
      Strength strength = Strength.of(line.material());
      if (strength == null) {
        return Optional.empty();
      }
      if (weakest == null || strength.force().force().compareTo(weakest.force().force()) < 0) {
        weakest = strength;
      }
    }
    return Optional.ofNullable(weakest);
  }

  /** What a line adds to it. */
  public Estimate estimate(Line line) {
    return estimate(List.of(line));
  }

  /** What it would weigh by the list alone. */
  public Estimate calculated() {
    return list.estimate();
  }

  /** How many of its lines were weighed. */
  public long weighedLines() {
    return lines.stream().filter(line -> line.weighed() != null).count();
  }

  /**
   * Mixed as soon as a line was weighed, and also once all were: a part is weighed when it lies on
   * the scale itself, with all that holds its pieces together.
   */
  public Basis basis() {
    return weighedLines() == 0 ? Basis.CALCULATED : Basis.MIXED;
  }
}
