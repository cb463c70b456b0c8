package org.tareline.rollup;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Tree.Row;

/**
 * A counted line in the breakdown of a {@link RollUp}, as met on one way down from the whole. Its
 * figures are what it contributes to the total on that way, so those of {@link #children} add up to
 * its own.
 */
public final class Entry {

  private final RollUp rollUp;
  private final Row row;
  private final long count;

  /**
   * @param holders how many of the assembly that holds the line there are on this way
   */
  Entry(RollUp rollUp, Row row, long holders) {
    this.rollUp = rollUp;
    this.row = row;
    this.count = Count.times(holders, row.line);
  }

  public Line line() {
    return row.line;
  }

  /** How many of its content there are: the quantities down this way, multiplied. */
  public long count() {
    return count;
  }

  /** What it contributes: the sum of what is known in it; null where nothing is. */
  public @Nullable Estimate estimate() {
    Estimate each = rollUp.each(row);
    return each == null ? null : each.times(count);
  }

  /** Its part of the total mass, 0 to 1; 0 where the total is nothing. */
  public double shareOfMass() {
    return rollUp.shareOfMass(row, count);
  }

  /**
   * Its part Σ c C / u² of the total variance, over the sources of error: c what the source does to
   * this entry, C what it does to the whole, u² = Σ C². Shares of the entries add up to 1, and one
   * may be negative where its error makes up for others'; 0 where the total has no error.
   */
  public double shareOfVariance() {
    return rollUp.shareOfVariance(row, count);
  }

  /** Where its mass comes from; null where nothing in it has one. */
  public @Nullable Basis basis() {
    return standing().basis();
  }

  /** How many distinct leaf lines in it are not weighed, those with no mass included. */
  public int unweighedLines() {
    return standing().unweighedLines();
  }

  /** Whether something in it has no mass. */
  public boolean atLeast() {
    return !standing().missing().isEmpty();
  }

  /** The counted lines of a nested assembly, made when asked for; none of a piece. */
  public List<Entry> children() {
    return row.nested == null ? List.of() : rollUp.entries(row.nested, count);
  }

  private Standing standing() {
    return rollUp.standing(row);
  }
}
