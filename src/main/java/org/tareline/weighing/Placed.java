package org.tareline.weighing;

import org.jspecify.annotations.Nullable;

/**
 * What lay on the pan.
 *
 * @param quantity how many of it, 1 or more
 * @param piece label of the one piece, where pieces of a part are weighed one by one; else null
 * @param revision of a rig weighed whole, or of a line of a cut list; null of a part
 * @param scope code of what is counted of a rig weighed whole; null of a part
 */
public record Placed(
    Subject subject,
    int quantity,
    @Nullable String piece,
    @Nullable Integer revision,
    @Nullable String scope) {

  /** So many of a part. */
  public static Placed part(long id, int quantity) {
    return new Placed(Subject.part(id), quantity, null, null, null);
  }

  /** One piece of a part, by its label. */
  public static Placed piece(long id, String label) {
    return new Placed(Subject.part(id), 1, label, null, null);
  }

  /** So many alike pieces of a material. */
  public static Placed swatch(long id, int quantity) {
    return new Placed(Subject.swatch(id), quantity, null, null, null);
  }

  /** So many pieces of a line of a cut list, as the line stood at a revision. */
  public static Placed cutLine(long id, int quantity, int revision) {
    return new Placed(new Subject(Subject.CUT_LINE, id), quantity, null, revision, null);
  }

  /** A rig as it stood at a revision, with what a scope counts of it. */
  public static Placed rig(long id, int quantity, int revision, String scope) {
    return new Placed(Subject.rig(id), quantity, null, revision, scope);
  }
}
