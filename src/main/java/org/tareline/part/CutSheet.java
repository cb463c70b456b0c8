package org.tareline.part;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A cut list that could be read; as kept with each revision of its part.
 *
 * @param toleranceNanometres ± of every cut edge; null where common practice serves
 * @param toleranceTyped the same as typed
 */
record CutSheet(
    @Nullable Long toleranceNanometres, @Nullable String toleranceTyped, List<Line> lines) {

  static final CutSheet NONE = new CutSheet(null, null, List.of());

  /**
   * A line.
   *
   * @param id of the line of the list that it is from now on; null of a new one
   * @param material its code at the time, for whoever reads an old revision
   */
  record Line(
      @Nullable UUID id,
      @Nullable String name,
      CutForm form,
      long materialId,
      String material,
      int quantity,
      boolean removed,
      Map<CutSize, Given> sizes) {

    Line as(@Nullable UUID line) {
      return new Line(line, name, form, materialId, material, quantity, removed, sizes);
    }

    @Nullable Double amount(CutSize size) {
      Given given = sizes.get(size);
      return given == null ? null : given.amount().doubleValue();
    }
  }

  /** A size in the base unit of its kind, and as typed. */
  record Given(BigDecimal amount, String typed) {}
}
