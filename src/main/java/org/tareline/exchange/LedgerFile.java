package org.tareline.exchange;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

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
      "strength",
      "strength-kind",
      "comfort-temperature",
      "comfort-temperature-kind",
      "comfort-temperature-insulates",
      "packed-volume",
      "packed-length",
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
  RIG_LOADS(
      "rig-loads.csv",
      "rig",
      "lies",
      "hangs",
      "dynamic-allowance",
      "design-factor",
      "ridge-length",
      "flat-length",
      "edge-span",
      "edge-sag",
      "gives-tree",
      "gives-settling",
      "first-angle",
      "first-run",
      "first-rise",
      "first-body-angle",
      "first-bar-length",
      "first-bar-leg",
      "first-bar-apex-distance",
      "first-bar-edge-angle",
      "first-bar-outer-diameter",
      "first-bar-wall",
      "first-bar-modulus",
      "first-bar-yield",
      "second-angle",
      "second-run",
      "second-rise",
      "second-body-angle",
      "second-bar-length",
      "second-bar-leg",
      "second-bar-apex-distance",
      "second-bar-edge-angle",
      "second-bar-outer-diameter",
      "second-bar-wall",
      "second-bar-modulus",
      "second-bar-yield"),
  RIG_LOAD_ELEMENTS(
      "rig-load-elements.csv",
      "rig",
      "part",
      "where",
      "termination",
      "termination-factor",
      "termination-source",
      "length",
      "breaking-stretch"),
  SET_UPS(
      "set-ups.csv",
      "rig",
      "hung-on",
      "ridge-length",
      "ridge-mark",
      "head-angle",
      "head-run",
      "head-rise",
      "foot-angle",
      "foot-run",
      "foot-rise",
      "sag",
      "head-height",
      "foot-height",
      "anchor-distance",
      "words",
      "favourite"),
  TRIPS("trips.csv", "code", "name", "starts", "days", "coldest-night", "target-base", "note"),
  TRIP_CARRIERS(
      "trip-carriers.csv", "trip", "code", "name", "body-mass", "pack-volume", "pack-length"),
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
      "place",
      "carrier",
      "counts-for",
      "left-at-home",
      "stands-in-for",
      "taken",
      "used",
      "per-day",
      "density");

  /** A file that lacks one of these columns is taken in as if it were empty in every row. */
  private static final Map<String, Set<String>> MAY_BE_LACKING =
      Map.of(
          "parts.csv",
          Set.of(
              "fibre",
              "strength",
              "strength-kind",
              "comfort-temperature",
              "comfort-temperature-kind",
              "comfort-temperature-insulates",
              "packed-volume",
              "packed-length"),
          "trips.csv",
          Set.of("coldest-night", "target-base"),
          "trip-carriers.csv",
          Set.of("pack-volume", "pack-length"),
          "trip-lines.csv",
          Set.of(
              "carrier",
              "counts-for",
              "left-at-home",
              "stands-in-for",
              "taken",
              "used",
              "per-day",
              "density"));

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
    return MAY_BE_LACKING.getOrDefault(fileName, Set.of()).contains(column);
  }

  /** Whether a ledger may come without the file: then it has nothing of the kind. */
  boolean mayBeMissing() {
    return this == MATERIALS
        || this == SWATCHES
        || this == CUT_LISTS
        || this == CUT_LINES
        || this == RIG_LOADS
        || this == RIG_LOAD_ELEMENTS
        || this == SET_UPS
        || this == TRIP_CARRIERS;
  }

  /**
   * The column in which a field of an entry is written, or nothing for the entry as a whole.
   *
   * @param field as the features name it: {@code spanTolerance}, {@code readings[2]}, {@code
   *     stated.mass}
   */
  String columnOf(String field) {
    String plain =
        field
            .replace("ends[0].bar.", "firstBar.")
            .replace("ends[1].bar.", "secondBar.")
            .replace("ends[0].", "first.")
            .replace("ends[1].", "second.")
            .replaceAll("\\[\\d+]", "")
            .replaceFirst("^(standsInFor|taken|used)\\..*", "$1");
    String column =
        switch (plain) {
          case "stated.mass" -> "stated";
          case "stated.tolerance" -> "tolerance";
          case "comfortTemperature.temperature" -> "comfort-temperature";
          case "item.name" -> "item";
          case "item.system" -> "system";
          case "item.mass" -> "mass";
          case "reason" -> "voided";
          case "ridgeLine.length" -> "ridge-length";
          case "ridgeLine.flatLength" -> "flat-length";
          case "bodyEdge.span" -> "edge-span";
          case "bodyEdge.sag" -> "edge-sag";
          case "system" -> this == TRIP_LINES ? "counts-for" : "system";
          case "rig" -> this == RIG_LINES ? "nested-rig" : "rig";
          default ->
              plain.replace('.', '-').replaceAll("(\\p{Lu})", "-$1").toLowerCase(Locale.ROOT);
        };
    return columns.contains(column) ? column : "";
  }
}
