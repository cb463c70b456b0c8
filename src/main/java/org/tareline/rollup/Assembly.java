package org.tareline.rollup;

import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A nested assembly of pieces and assemblies. The same assembly may stand in several lines, shared
 * or as an equal copy: its id says that it is the same, and it is worked out once.
 *
 * @param lines what it holds, each line with an id of its own
 */
public record Assembly(String id, String code, String name, List<Line> lines) implements Content {

  /**
   * @throws IllegalArgumentException if two lines have one id
   */
  public Assembly {
    lines = List.copyOf(lines);
    Set<String> ids = new HashSet<>();
    for (Line line : lines) {
      if (!ids.add(line.id())) {
        throw new IllegalArgumentException(code + " has two lines with the id " + line.id() + ".");
      }
    }
  }

  /**
   * By id alone. To compare lines all the way down would take for ever in an assembly whose parts
   * are shared at every level.
   */
  @Override
  public boolean equals(Object other) {
    return this == other || other instanceof Assembly assembly && id.equals(assembly.id);
  }

  @Override
  public int hashCode() {
    return id.hashCode();
  }

  @Override
  public String toString() {
    return code;
  }
}
