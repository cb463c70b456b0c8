package org.tareline.part;

import java.math.BigDecimal;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A line of a cut list with one of its sizes, as a query finds it.
 *
 * @param size its name; null of a line that has none
 */
record CutRow(
    long id,
    UUID uuid,
    long partId,
    int position,
    @Nullable String name,
    String form,
    long materialId,
    int quantity,
    boolean removed,
    int revision,
    @Nullable String size,
    @Nullable BigDecimal amount,
    @Nullable String typed) {

  /** Of the columns of {@link CutLineRepository#rowsOf}. */
  static CutRow of(@Nullable Object[] columns) {
    return new CutRow(
        number(columns[0]).longValue(),
        UUID.fromString((String) Objects.requireNonNull(columns[1])),
        number(columns[2]).longValue(),
        number(columns[3]).intValue(),
        (String) columns[4],
        (String) Objects.requireNonNull(columns[5]),
        number(columns[6]).longValue(),
        number(columns[7]).intValue(),
        (Boolean) Objects.requireNonNull(columns[8]),
        number(columns[9]).intValue(),
        (String) columns[10],
        (BigDecimal) columns[11],
        (String) columns[12]);
  }

  private static Number number(@Nullable Object column) {
    return (Number) Objects.requireNonNull(column);
  }
}
