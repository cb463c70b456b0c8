package org.tareline.rollup;

/** How many of a piece an assembly holds. */
public final class Multiplicity {

  private Multiplicity() {}

  /**
   * How many of the piece the assembly holds under a scope, over all ways that lead to it; 0 if
   * none.
   *
   * @throws Circle if the assembly holds itself
   * @throws ArithmeticException if there are more than a long can count
   */
  public static long of(String pieceId, Assembly assembly, Scope scope) {
    Count count = new Count(Tree.of(assembly), scope);
    long sum = 0;
    for (Tree.Row leaf : count.leaves()) {
      if (leaf.piece().id().equals(pieceId)) {
        sum = Math.addExact(sum, count.of(leaf));
      }
    }
    return sum;
  }
}
