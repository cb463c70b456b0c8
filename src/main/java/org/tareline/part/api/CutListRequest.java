package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.part.CutSize;
import org.tareline.part.Parts;
import org.tareline.site.json.TypedText;
import tools.jackson.databind.annotation.JsonDeserialize;

/**
 * A cut list as it is sent.
 *
 * @param cuttingTolerance ± of every cut edge; 3 mm when left out, which is common practice
 */
record CutListRequest(
    @JsonDeserialize(using = TypedText.class) @Nullable String cuttingTolerance,
    @Nullable List<@Nullable Line> lines) {

  /**
   * A line as it is sent. A bare length is in millimetres, a bare mass in grams, a bare area in
   * square metres.
   *
   * @param id of a line that is there and stays, with its weighings; left out of a new one
   * @param kind panel, length, seam, each or fill
   * @param shape of a panel: rectangle, trapezoid, triangle, ellipse, parabolic-edges or
   *     parabolic-segment
   * @param quantity 1 when left out
   * @param removed whether the panel is cut away
   * @param stitch 301, where the thread of a seam is by the geometry of that stitch
   * @param lengthAllowance both sides together, added to what lies along the roll
   * @param widthAllowance both sides together, added to what lies across it
   */
  @JsonIgnoreProperties({"calculated", "weighed"})
  record Line(
      @Nullable String id,
      @Nullable String name,
      @Nullable String kind,
      @Nullable String shape,
      @Nullable String material,
      @JsonDeserialize(using = TypedText.class) @Nullable String quantity,
      @Nullable Boolean removed,
      @JsonDeserialize(using = TypedText.class) @Nullable String stitch,
      @JsonDeserialize(using = TypedText.class) @Nullable String length,
      @JsonDeserialize(using = TypedText.class) @Nullable String width,
      @JsonDeserialize(using = TypedText.class) @Nullable String base,
      @JsonDeserialize(using = TypedText.class) @Nullable String top,
      @JsonDeserialize(using = TypedText.class) @Nullable String height,
      @JsonDeserialize(using = TypedText.class) @Nullable String depth,
      @JsonDeserialize(using = TypedText.class) @Nullable String chord,
      @JsonDeserialize(using = TypedText.class) @Nullable String lengthAllowance,
      @JsonDeserialize(using = TypedText.class) @Nullable String widthAllowance,
      @JsonDeserialize(using = TypedText.class) @Nullable String allowance,
      @JsonDeserialize(using = TypedText.class) @Nullable String seamThickness,
      @JsonDeserialize(using = TypedText.class) @Nullable String stitchLength,
      @JsonDeserialize(using = TypedText.class) @Nullable String ratio,
      @JsonDeserialize(using = TypedText.class) @Nullable String mass,
      @JsonDeserialize(using = TypedText.class) @Nullable String area,
      @JsonDeserialize(using = TypedText.class) @Nullable String loft,
      @JsonDeserialize(using = TypedText.class) @Nullable String fillPower) {

    Parts.CutEntry entry() {
      Map<CutSize, @Nullable String> sizes = new EnumMap<>(CutSize.class);
      sizes.put(CutSize.LENGTH, length);
      sizes.put(CutSize.WIDTH, width);
      sizes.put(CutSize.BASE, base);
      sizes.put(CutSize.TOP, top);
      sizes.put(CutSize.HEIGHT, height);
      sizes.put(CutSize.DEPTH, depth);
      sizes.put(CutSize.CHORD, chord);
      sizes.put(CutSize.LENGTH_ALLOWANCE, lengthAllowance);
      sizes.put(CutSize.WIDTH_ALLOWANCE, widthAllowance);
      sizes.put(CutSize.ALLOWANCE, allowance);
      sizes.put(CutSize.SEAM_THICKNESS, seamThickness);
      sizes.put(CutSize.STITCH_LENGTH, stitchLength);
      sizes.put(CutSize.RATIO, ratio);
      sizes.put(CutSize.MASS, mass);
      sizes.put(CutSize.AREA, area);
      sizes.put(CutSize.LOFT, loft);
      sizes.put(CutSize.FILL_POWER, fillPower);
      return new Parts.CutEntry(id, name, kind, shape, material, quantity, removed, stitch, sizes);
    }
  }

  Parts.SheetEntry entry() {
    List<Parts.@Nullable CutEntry> entries = new ArrayList<>();
    if (lines != null) {
      for (Line line : lines) {
        entries.add(line == null ? null : line.entry());
      }
    }
    return new Parts.SheetEntry(cuttingTolerance, entries);
  }
}
