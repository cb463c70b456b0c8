package org.tareline.rollup;

import java.util.List;

/**
 * A line that the scope leaves out, with everything in it.
 *
 * @param path codes of the assemblies that lead to it, from the whole down to the one that holds
 *     the line; where several ways do, the first
 * @param multiplicity how many of its content the whole would hold by way of this line
 */
public record Omission(List<String> path, Line line, long multiplicity) {

  public Omission {
    path = List.copyOf(path);
  }
}
