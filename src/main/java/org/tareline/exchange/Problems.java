package org.tareline.exchange;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What stands in the way of an import: the first few hundred, and how many there are. */
final class Problems {

  private static final int MOST_KEPT = 200;

  /** What somebody typed may stand in it. */
  private static final int LONGEST_REASON = 1_000;

  private final List<BadRow> kept = new ArrayList<>();
  private int count;

  void note(String file, int line, String column, @Nullable String reason) {
    count++;
    if (kept.size() < MOST_KEPT) {
      String told = String.valueOf(reason);
      kept.add(
          new BadRow(
              file,
              line,
              column,
              told.length() > LONGEST_REASON ? told.substring(0, LONGEST_REASON) + "…" : told));
    }
  }

  boolean none() {
    return count == 0;
  }

  /** How many there are, told or not. */
  int count() {
    return count;
  }

  /** What an import comes to of which these are the problems. */
  ImportReport report(boolean dryRun, List<ImportReport.OfTable> tables) {
    return new ImportReport(dryRun, List.copyOf(tables), List.copyOf(kept), count);
  }
}
