package org.tareline.rollup;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;

/** Rigs to try things on: by hand, and at random from a seed. */
final class Rigs {

  private static final Source SPAN = Source.of("scale/span", "span of the scale");

  private Rigs() {}

  static Piece weighed(String id, String grams, double uncertaintyInGrams) {
    Estimate each =
        Estimate.of(Mass.ofGrams(grams), Map.of(Source.of(id, "its own"), uncertaintyInGrams));
    return new Piece(id, id, id, each, Basis.WEIGHED);
  }

  static Piece unknown(String id) {
    return new Piece(id, id, id, null, null);
  }

  static Line line(String role, int quantity, Content content) {
    return new Line(content.id() + " as " + role, role, quantity, content);
  }

  static Assembly rig(String id, Line... lines) {
    return new Assembly(id, id, id, List.of(lines));
  }

  /**
   * A rig some levels deep in which pieces and nested rigs are shared, one piece in eight has no
   * mass, and weighed pieces share a span and sometimes a second source.
   */
  static Assembly any(Random random) {
    List<Content> contents = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      contents.add(anyPiece(random, "p" + i));
    }
    for (int i = 0; i < 2 + random.nextInt(7); i++) {
      List<Line> lines = new ArrayList<>();
      for (int j = random.nextInt(5); j >= 0; j--) {
        Content content = contents.get(random.nextInt(contents.size()));
        String role = Roles.ALL.get(random.nextInt(Roles.ALL.size()));
        lines.add(new Line("l" + i + "." + j, role, 1 + random.nextInt(3), content));
      }
      contents.add(new Assembly("a" + i, "A" + i, "rig " + i, lines));
    }
    return (Assembly) contents.get(contents.size() - 1);
  }

  private static Piece anyPiece(Random random, String id) {
    if (random.nextInt(8) == 0) {
      return unknown(id);
    }
    Mass mass = new Mass(random.nextInt(1_000_000_000));
    Map<Source, Double> coefficients =
        Map.of(
            Source.of(id, "its own"),
            random.nextDouble(),
            Source.of("roll " + random.nextInt(3), "of one roll"),
            random.nextGaussian() / 4,
            SPAN,
            0.1 * mass.inGrams());
    Basis basis = Basis.values()[random.nextInt(3)];
    return new Piece(id, id, "part " + id, Estimate.of(mass, coefficients), basis);
  }

  static Scope anyScope(Random random) {
    List<String> roles = new ArrayList<>();
    for (int i = random.nextInt(9); i > 0; i--) {
      roles.add(Roles.ALL.get(random.nextInt(Roles.ALL.size())));
    }
    Scope.Mode mode = Scope.Mode.values()[random.nextInt(2)];
    String leftOut = "l" + random.nextInt(6) + "." + random.nextInt(3);
    return new Scope("any", "Any", mode, new HashSet<>(roles), Set.of(leftOut));
  }
}
