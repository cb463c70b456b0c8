package org.tareline.rollup;

/**
 * One line of an assembly.
 *
 * @param id survives edits of the line
 * @param role what the line does, as {@link Roles#normalise} writes it
 * @param quantity how many, 1 or more
 */
public record Line(String id, String role, int quantity, Content content) {

  /**
   * @throws IllegalArgumentException if the quantity is below 1
   */
  public Line {
    if (quantity < 1) {
      throw new IllegalArgumentException(
          "The quantity of " + content.code() + " must be 1 or more, not " + quantity + ".");
    }
    role = Roles.normalise(role);
  }
}
