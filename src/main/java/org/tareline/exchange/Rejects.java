package org.tareline.exchange;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.tareline.exchange.BadRows.BadRow;
import org.tareline.site.Codes;
import org.tareline.site.Refusal;

/**
 * What could not be taken in. A row that fails only because it names the thing of a row that
 * failed, or that could not be read at all, is not listed: mending the one mends the other.
 */
final class Rejects {

  private record Thing(LedgerFile file, String code) {}

  private final List<BadRow> rows = new ArrayList<>();
  private final Set<Thing> things = new HashSet<>();
  private final Set<LedgerFile> unread = EnumSet.noneOf(LedgerFile.class);

  /** Notes why a line of a file, or all from there on, cannot be read as rows. */
  void noteUnread(LedgerFile file, int line, String reason) {
    unread.add(file);
    rows.add(new BadRow(file.fileName(), line, "", reason));
  }

  /** Notes what is wrong with a row. */
  void note(Sheet.Row row, String column, String reason) {
    if (!namesReject(row, column)) {
      rows.add(new BadRow(row.file().fileName(), row.line(), column, reason));
    }
  }

  /** Does what takes a row in, and notes what it is refused for. */
  void gather(Sheet.Row row, Runnable takingIn) {
    gather(row, List.of(), takingIn);
  }

  /**
   * Does what takes a row and the lines under it in, and notes what they are refused for, each at
   * its own row.
   */
  void gather(Sheet.Row row, List<Sheet.Row> lines, Runnable takingIn) {
    try {
      takingIn.run();
    } catch (Refusal refusal) {
      reject(row);
      for (Refusal.Fault fault : refusal.faults()) {
        Sheet.Row at = row;
        String field = fault.field().replaceFirst("^buildSheet\\.", "");
        if (field.startsWith("lines[") || field.startsWith("elements[")) {
          int end = field.indexOf(']');
          at = lines.get(Integer.parseInt(field.substring(field.indexOf('[') + 1, end)));
          field = field.substring(Math.min(end + 2, field.length()));
        }
        note(at, at.file().columnOf(field), fault.message());
      }
    }
  }

  /** Counts the thing of a row among what could not be taken in. */
  void reject(Sheet.Row row) {
    if (row.file().columns().contains("code")) {
      things.add(new Thing(row.file(), Codes.key(row.cell("code"))));
    }
  }

  private boolean namesReject(Sheet.Row row, String column) {
    return switch (column) {
      case "scale" -> isReject(LedgerFile.SCALES, row.cell(column));
      case "material" -> isReject(LedgerFile.MATERIALS, row.cell(column));
      case "part" -> isReject(LedgerFile.PARTS, row.cell(column));
      case "rig", "nested-rig" -> isReject(LedgerFile.RIGS, row.cell(column));
      case "trip" -> isReject(LedgerFile.TRIPS, row.cell(column));
      case "left-at-home" ->
          row.several(column).stream().anyMatch(code -> isReject(LedgerFile.PARTS, code));
      case "stands-in-for" ->
          row.several(column).stream()
              .map(place -> place.split(":", 2))
              .anyMatch(
                  place ->
                      isReject(LedgerFile.RIGS, place[0])
                          || isReject(LedgerFile.PARTS, place[place.length - 1]));
      default -> false;
    };
  }

  private boolean isReject(LedgerFile file, String code) {
    return unread.contains(file) || things.contains(new Thing(file, Codes.key(code)));
  }

  /**
   * Ends the taking in.
   *
   * @throws BadRows with every row noted, if there is one
   */
  void refuseIfAny() {
    if (!rows.isEmpty()) {
      List<String> files = List.of(LedgerFile.values()).stream().map(LedgerFile::fileName).toList();
      rows.sort(
          Comparator.comparing((Function<BadRow, Integer>) row -> files.indexOf(row.file()))
              .thenComparing(BadRow::line));
      throw new BadRows(rows);
    }
  }
}
