package org.tareline.rollup;

import java.util.List;

/** An assembly that holds itself, directly or through others, and so has no weight. */
public final class Circle extends IllegalArgumentException {

  private static final long serialVersionUID = 1;

  private final List<String> path;

  Circle(List<String> path) {
    super(
        path.get(0)
            + " would hold itself: "
            + String.join(" > ", path)
            + ". Take one of these lines out.");
    this.path = List.copyOf(path);
  }

  /** The codes from the assembly round to itself: the first and the last are the same. */
  public List<String> path() {
    return path;
  }
}
