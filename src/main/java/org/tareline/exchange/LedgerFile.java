package org.tareline.exchange;

import java.util.List;
import java.util.Locale;

/**
 * The files of a ledger and their columns, in an order in which each file names only things of
 * itself and of those before it. {@code sample-data/README.md} says what stands in each column.
 */
enum LedgerFile {
  SCALES(
      "scales.csv", "code", "name", "readability", "capacity", "repeatability", "span-tolerance"),
  MATERIALS(
      "materials.csv",
      "code",
      "name",
      "kind",
      "nominal",
      "tolerance",
      "fill-power",
      "width",
      "strength",
      "strength-kind",
      "fibre",
      "price",
      "colour",
      "stock",
      "use",
      "note"),
  SWATCHES(
      "swatches.csv",
      "material",
      "length",
      "width",
      "size-error",
      "place",
      "weighed-at",
      "scale",
      "tolerance",
      "readings",
      "tare",
      "count",
      "condition",
      "note",
      "voided"),
  PARTS(
      "parts.csv",
      "code",
      "name",
      "system",
      "owned",
      "stated",
      "tolerance",
      "former-codes",
      "fibre",
      "note"),
  CUT_LISTS("cut-lists.csv", "part", "cutting-tolerance"),
  CUT_LINES(
      "cut-lines.csv",
      "part",
      "name",
      "kind",
      "shape",
      "material",
      "quantity",
      "removed",
      "length",
      "width",
      "base",
      "top",
      "height",
      "depth",
      "chord",
      "length-allowance",
      "width-allowance",
      "allowance",
      "stitch",
      "seam-thickness",
      "stitch-length",
      "ratio",
      "mass",
      "area",
      "loft",
      "fill-power"),
  WEIGHINGS(
      "weighings.csv",
      "part",
      "weighed-at",
      "scale",
      "tolerance",
      "readings",
      "tare",
      "count",
      "condition",
      "note",
      "voided"),
  LIFE_EVENTS("life-events.csv", "part", "kind", "date", "count", "note", "voided"),
  SCOPES("scopes.csv", "code", "name", "counts", "leaves-out"),
  RIGS("rigs.csv", "code", "name", "note"),
  RIG_LINES("rig-lines.csv", "rig", "part", "nested-rig", "quantity", "role"),
  TRIPS("trips.csv", "code", "name", "starts", "days", "note"),
  TRIP_LINES(
      "trip-lines.csv",
      "trip",
      "part",
      "rig",
      "item",
      "system",
      "mass",
      "quantity",
      "carry",
      "place");

  /** A file that lacks this column is taken in as if it were empty in every row. */
  private static final String MAY_BE_LACKING = "fibre";

  private final String fileName;
  private final List<String> columns;

  LedgerFile(String fileName, String... columns) {
    this.fileName = fileName;
    this.columns = List.of(columns);
  }

  String fileName() {
    return fileName;
  }

  List<String> columns() {
    return columns;
  }

  boolean mayLack(String column) {
    return this == PARTS && column.equals(MAY_BE_LACKING);
  }

  /** Whether a ledger may come without the file: then it has nothing of the kind. */
  boolean mayBeMissing() {
    return this == MATERIALS || this == SWATCHES || this == CUT_LISTS || this == CUT_LINES;
  }

  /**
   * The column in which a field of an entry is written, or nothing for the entry as a whole.
   *
   * @param field as the features name it: {@code spanTolerance}, {@code readings[2]}, {@code
   *     stated.mass}
   */
  String columnOf(String field) {
    String plain = field.replaceAll("\\[\\d+]", "");
    String column =
        switch (plain) {
          case "stated.mass" -> "stated";
          case "stated.tolerance" -> "tolerance";
          case "item.name" -> "item";
          case "item.system" -> "system";
          case "item.mass" -> "mass";
          case "reason" -> "voided";
          case "rig" -> this == RIG_LINES ? "nested-rig" : "rig";
          default -> plain.replaceAll("(\\p{Lu})", "-$1").toLowerCase(Locale.ROOT);
        };
    return columns.contains(column) ? column : "";
  }
}
