package org.tareline.exchange;

import java.util.List;

/**
 * What an import did, or would do.
 *
 * @param dryRun whether nothing was written, whatever it says
 * @param problems why rows were refused, the first few hundred
 * @param total how many there are
 */
public record ImportReport(boolean dryRun, List<OfTable> tables, List<BadRow> problems, int total) {

  /** What became of the rows of a file. */
  public record OfTable(String file, int added, int changed, int unchanged, int refused) {

    /** How many rows it has. */
    public int rows() {
      return added + changed + unchanged + refused;
    }
  }

  /** Whether there is nothing against it. */
  public boolean good() {
    return total == 0;
  }
}
