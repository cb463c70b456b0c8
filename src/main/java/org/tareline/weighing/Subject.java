package org.tareline.weighing;

/**
 * What is weighed: a kind and an id of that kind, and nothing more, so that a weighing need not
 * know what a part or a rig is.
 *
 * @param kind {@code part}, {@code rig}, {@code swatch} or {@code cut-line}
 * @param id the row it has in its own table
 */
public record Subject(String kind, long id) {

  public static final String PART = "part";
  public static final String RIG = "rig";
  public static final String SWATCH = "swatch";

  public static Subject part(long id) {
    return new Subject(PART, id);
  }

  public static Subject rig(long id) {
    return new Subject(RIG, id);
  }

  /** A line of a cut list, weighed before it is sewn to the others. */
  public static final String CUT_LINE = "cut-line";

  public static Subject swatch(long id) {
    return new Subject(SWATCH, id);
  }
}
