package org.tareline.rig.web;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.rig.Forest;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Figure;
import org.tareline.units.MassStyle;
import org.tareline.weighing.Condition;
import org.tareline.weighing.Weighing;

/**
 * The sentence by which a maker tells others what a rig weighs: what is counted, the mass with its
 * uncertainty, how much of it was weighed and in what condition, and the day. It says nothing that
 * is not so: no "dry" of what was never weighed, no "net in" without a net.
 */
final class Quote {

  private Quote() {}

  /** The sentence, or null where nothing is counted. */
  static @Nullable String of(RollUp rollUp, Forest forest, MassStyle style, RigPage.Dates dates) {
    if (rollUp.leafLines() == 0) {
      return null;
    }
    List<Weighing> weighings =
        rollUp.leaves().stream()
            .map(leaf -> forest.mass(leaf.piece()).map(mass -> mass.weighing()).orElse(null))
            .filter(Objects::nonNull)
            .toList();
    List<String> clauses = new ArrayList<>();
    clauses.add(counted(rollUp) + ": " + mass(rollUp, style));
    clauses.add(standing(rollUp));
    condition(weighings).ifPresent(clauses::add);
    clauses.add(
        weighings.stream()
            .map(Weighing::weighedAt)
            .max(Instant::compareTo)
            .map(dates::of)
            .orElseGet(dates::today));
    return String.join("; ", clauses) + ".";
  }

  /** Bars and net are named where a scope could leave them out and this one does not. */
  private static String counted(RollUp rollUp) {
    Scope scope = rollUp.scope();
    if (scope.roles().isEmpty()) {
      return scope.name();
    }
    Set<String> roles =
        rollUp.leaves().stream().map(leaf -> leaf.line().role()).collect(Collectors.toSet());
    return scope.name()
        + (roles.contains(Roles.SPREADER_BAR) ? ", bars in" : "")
        + (roles.contains(Roles.BUG_NET) ? ", net in" : "");
  }

  private static String mass(RollUp rollUp, MassStyle style) {
    if (rollUp.basis() == null) {
      return "not known yet";
    }
    return (rollUp.atLeast() ? "at least " : "")
        + Figure.of(rollUp.estimate(), forOthers(style)).sentence();
  }

  /** Whoever hears it may think in the other system. */
  private static MassStyle forOthers(MassStyle style) {
    return switch (style) {
      case GRAMS -> MassStyle.GRAMS_AND_OUNCES;
      case KILOGRAMS -> MassStyle.KILOGRAMS_AND_POUNDS;
      default -> style;
    };
  }

  static String standing(RollUp rollUp) {
    int weighed = rollUp.basisCounts().getOrDefault(Basis.WEIGHED, 0);
    StringBuilder words = new StringBuilder();
    words.append(weighed).append(" of ").append(rollUp.leafLines()).append(" weighed");
    rollUp
        .basisCounts()
        .forEach(
            (basis, count) -> {
              if (basis != Basis.WEIGHED) {
                words.append(", ").append(count).append(' ').append(basis.pageWords());
              }
            });
    long unknown = rollUp.leaves().stream().map(Leaf::estimate).filter(Objects::isNull).count();
    if (unknown > 0) {
      words.append(", ").append(unknown).append(" not known");
    }
    return words.toString();
  }

  private static Optional<String> condition(List<Weighing> weighings) {
    Set<Condition> conditions =
        weighings.stream().map(Weighing::condition).collect(Collectors.toSet());
    return conditions.isEmpty()
        ? Optional.empty()
        : Optional.of(
            conditions.stream().sorted().map(Condition::word).collect(Collectors.joining(" or ")));
  }
}
