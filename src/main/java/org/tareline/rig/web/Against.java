package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.rollup.Comparison;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.site.Figure;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * One rig against another, as the page shows them: first whether they are like, then by role and in
 * total, then how the one becomes the other.
 *
 * @param id of the parts of the page that are about these two
 * @param lead the verdict as a sentence
 * @param toTell what would have to be weighed to tell; null where it can be told
 * @param like whether the same things are counted, in a sentence or two
 * @param surpluses what the one has that the other lacks
 */
record Against(
    String id,
    String first,
    String firstName,
    String second,
    String secondName,
    String lead,
    @Nullable String toTell,
    List<String> like,
    List<Surplus> surpluses,
    String unit,
    List<Row> rows,
    Row total,
    boolean addsUp,
    Steps steps,
    String finding) {

  private static final int MOST_TO_WEIGH = 4;

  /** What one rig has more of than the other. */
  record Surplus(String title, List<More> parts) {}

  /** So many more of a part. */
  record More(String count, String code, String name) {}

  /**
   * A role, or the total.
   *
   * @param words the verdict
   */
  record Row(String label, Side a, Side b, Figure difference, String words) {}

  /**
   * One rig in a role.
   *
   * @param none whether it has no line of this role
   * @param figure null where nothing of it has a mass
   */
  record Side(boolean none, @Nullable Figure figure, boolean atLeast) {}

  static Against of(String id, RollUp first, RollUp second, MassStyle style) {
    Comparison comparison = Comparison.of(first, second);
    String a = first.assembly().code();
    String b = second.assembly().code();
    int decimals = decimals(comparison, style);
    List<Row> rows = new ArrayList<>();
    comparison
        .roles()
        .forEach(
            (role, pair) ->
                rows.add(
                    new Row(
                        role,
                        side(pair.a(), leaves(first, role), style, decimals),
                        side(pair.b(), leaves(second, role), style, decimals),
                        Figure.of(pair.difference(), style, decimals),
                        words(pair, missing(leaves(first, role), leaves(second, role)), style))));
    Comparison.Pair total = comparison.total();
    List<String> missing = missing(first.leaves(), second.leaves());
    String words = words(total, missing, style);
    return new Against(
        id,
        a,
        first.assembly().name(),
        b,
        second.assembly().name(),
        lead(a, b, total, words),
        toTell(total, comparison),
        like(a, b, first, second, comparison),
        surpluses(a, b, comparison),
        style.heading(),
        rows,
        new Row(
            first.atLeast() || second.atLeast() ? "Total, of what is known" : "Total",
            side(total.a(), first.leaves(), style, decimals),
            side(total.b(), second.leaves(), style, decimals),
            Figure.of(total.difference(), style, decimals),
            words),
        addsUp(comparison, style, decimals),
        steps(first, second, comparison, style, decimals),
        finding(a, b, comparison, style));
  }

  private static int decimals(Comparison comparison, MassStyle style) {
    List<@Nullable Estimate> all = new ArrayList<>();
    Stream.concat(comparison.roles().values().stream(), Stream.of(comparison.total()))
        .forEach(
            pair -> {
              all.add(pair.a());
              all.add(pair.b());
              all.add(isNothing(pair.difference()) ? null : pair.difference());
            });
    return Figure.decimals(all, style);
  }

  private static boolean isNothing(Estimate difference) {
    return difference.value().signum() == 0 && difference.expandedUncertainty().signum() == 0;
  }

  private static List<Leaf> leaves(RollUp rollUp, String role) {
    return rollUp.leaves().stream().filter(leaf -> leaf.line().role().equals(role)).toList();
  }

  private static Side side(
      @Nullable Estimate sum, List<Leaf> leaves, MassStyle style, int decimals) {
    boolean known = leaves.stream().anyMatch(leaf -> leaf.estimate() != null);
    boolean atLeast = leaves.stream().anyMatch(leaf -> leaf.estimate() == null);
    return new Side(
        leaves.isEmpty(),
        sum == null || !known ? null : Figure.of(sum, style, decimals),
        known && atLeast);
  }

  /** Codes of what has no mass and is not alike on both sides. */
  private static List<String> missing(List<Leaf> first, List<Leaf> second) {
    Map<String, Long> ofFirst = unknown(first);
    Map<String, Long> ofSecond = unknown(second);
    return Stream.concat(ofFirst.keySet().stream(), ofSecond.keySet().stream())
        .distinct()
        .filter(code -> !Objects.equals(ofFirst.get(code), ofSecond.get(code)))
        .toList();
  }

  private static Map<String, Long> unknown(List<Leaf> leaves) {
    return leaves.stream()
        .filter(leaf -> leaf.estimate() == null)
        .collect(
            Collectors.toMap(
                leaf -> leaf.piece().code(), Leaf::multiplicity, Long::sum, LinkedHashMap::new));
  }

  /** The verdict on the second, in words. */
  static String words(Comparison.Pair pair, List<String> missing, MassStyle style) {
    Estimate difference = pair.difference();
    return switch (pair.verdict()) {
      case LIGHTER -> "lighter by " + Figure.of(difference.times(-1), style).sentence();
      case HEAVIER -> "heavier by " + Figure.of(difference, style).sentence();
      case UNDECIDED -> undecided(difference, missing, style);
    };
  }

  private static String undecided(Estimate difference, List<String> missing, MassStyle style) {
    if (!missing.isEmpty()) {
      return "cannot tell yet: "
          + String.join(", ", missing)
          + (missing.size() == 1 ? " has" : " have")
          + " no mass";
    }
    if (isNothing(difference)) {
      return "the same";
    }
    Mass uncertainty = difference.expandedUncertainty();
    int decimals = style.decimals(uncertainty, 1);
    Mass size = difference.value().signum() < 0 ? difference.value().negated() : difference.value();
    return "cannot tell yet: the difference of "
        + style.text(size, decimals)
        + " is within its ±\u00a0"
        + style.text(uncertainty, decimals);
  }

  private static String lead(String a, String b, Comparison.Pair total, String words) {
    return switch (total.verdict()) {
      case LIGHTER, HEAVIER ->
          b + " is " + words.replaceFirst(" by ", " than " + quoted(a) + " by ") + ".";
      case UNDECIDED ->
          words.equals("the same")
              ? b + " weighs the same as " + a + "."
              : "Whether "
                  + b
                  + " is lighter than "
                  + a
                  + " "
                  + words.replaceFirst("cannot tell yet", "cannot be told yet")
                  + ".";
    };
  }

  /** A code may have what a replacement would take as a reference. */
  private static String quoted(String code) {
    return Matcher.quoteReplacement(code);
  }

  private static @Nullable String toTell(Comparison.Pair total, Comparison comparison) {
    if (total.verdict() != Verdict.UNDECIDED || isNothing(total.difference())) {
      return null;
    }
    List<String> unweighed =
        Stream.concat(comparison.surplusOfFirst().stream(), comparison.surplusOfSecond().stream())
            .map(Comparison.Surplus::piece)
            .filter(piece -> piece.basis() != Basis.WEIGHED)
            .sorted(Comparator.comparingDouble(Against::variance).reversed())
            .map(Piece::code)
            .distinct()
            .limit(MOST_TO_WEIGH)
            .toList();
    return unweighed.isEmpty()
        ? "Everything in which they differ is weighed: more readings would tell."
        : "To tell, weigh " + String.join(", ", unweighed) + ".";
  }

  /** What is not known at all comes first. */
  private static double variance(Piece piece) {
    return piece.each() == null ? Double.POSITIVE_INFINITY : piece.each().variance();
  }

  private static List<String> like(
      String a, String b, RollUp first, RollUp second, Comparison comparison) {
    List<String> sentences = new ArrayList<>();
    List<String> onlyA = comparison.onlyInFirst();
    List<String> onlyB = comparison.onlyInSecond();
    if (onlyA.isEmpty() && onlyB.isEmpty()) {
      sentences.add("The same roles are counted in both.");
    } else {
      sentences.add("They are not like with like.");
      if (!onlyA.isEmpty()) {
        sentences.add(a + " has " + String.join(", ", onlyA) + ", and " + b + " has not.");
      }
      if (!onlyB.isEmpty()) {
        sentences.add(b + " has " + String.join(", ", onlyB) + ", and " + a + " has not.");
      }
    }
    if (comparison.surplusOfFirst().isEmpty() && comparison.surplusOfSecond().isEmpty()) {
      sentences.add("They hold the same parts.");
    }
    leftOut(a, first, sentences);
    leftOut(b, second, sentences);
    return sentences;
  }

  private static void leftOut(String code, RollUp rollUp, List<String> sentences) {
    Set<String> roles =
        rollUp.omitted().stream()
            .map(omission -> omission.line().role())
            .collect(Collectors.toCollection(LinkedHashSet::new));
    if (!roles.isEmpty()) {
      sentences.add("Left out of " + code + " here: " + String.join(", ", roles) + ".");
    }
  }

  private static List<Surplus> surpluses(String a, String b, Comparison comparison) {
    List<Surplus> surpluses = new ArrayList<>();
    if (!comparison.surplusOfFirst().isEmpty()) {
      surpluses.add(new Surplus(a + " has and " + b + " lacks", more(comparison.surplusOfFirst())));
    }
    if (!comparison.surplusOfSecond().isEmpty()) {
      surpluses.add(
          new Surplus(b + " has and " + a + " lacks", more(comparison.surplusOfSecond())));
    }
    return surpluses;
  }

  private static List<More> more(List<Comparison.Surplus> surplus) {
    return surplus.stream()
        .map(
            one ->
                new More(
                    one.count() == 1 ? "" : one.count() + " × ",
                    one.piece().code(),
                    one.piece().name()))
        .toList();
  }

  private static boolean addsUp(Comparison comparison, MassStyle style, int decimals) {
    List<Mass> differences =
        comparison.roles().values().stream().map(pair -> pair.difference().value()).toList();
    return style.addsUp(differences, comparison.total().difference().value(), decimals)
        && style.addsUp(side(comparison, Comparison.Pair::a), sum(comparison.total().a()), decimals)
        && style.addsUp(
            side(comparison, Comparison.Pair::b), sum(comparison.total().b()), decimals);
  }

  private static List<Mass> side(
      Comparison comparison, Function<Comparison.Pair, @Nullable Estimate> side) {
    return comparison.roles().values().stream()
        .map(side)
        .filter(Objects::nonNull)
        .map(Estimate::value)
        .toList();
  }

  private static Mass sum(@Nullable Estimate total) {
    return total == null ? Mass.ZERO : total.value();
  }

  private static Steps steps(
      RollUp first, RollUp second, Comparison comparison, MassStyle style, int decimals) {
    List<Steps.Row> rows = new ArrayList<>();
    comparison
        .roles()
        .forEach(
            (role, pair) -> {
              if (!isNothing(pair.difference())) {
                boolean known = missing(leaves(first, role), leaves(second, role)).isEmpty();
                rows.add(new Steps.Row(known ? role : role + ", not all known", pair.difference()));
              }
            });
    return Steps.of(
        rows,
        second.assembly().code() + ", all in all",
        comparison.total().difference(),
        style,
        decimals);
  }

  private static String finding(String a, String b, Comparison comparison, MassStyle style) {
    String largest =
        comparison.roles().entrySet().stream()
            .filter(role -> !isNothing(role.getValue().difference()))
            .max(
                Comparator.comparingDouble(
                    role -> Math.abs(role.getValue().difference().value().inGrams())))
            .map(
                role ->
                    "From "
                        + a
                        + " to "
                        + b
                        + " the largest step is "
                        + role.getKey()
                        + ", "
                        + Figure.of(role.getValue().difference(), style).sentence()
                        + ".")
            .orElse("Nothing changes from " + a + " to " + b + ".");
    boolean someSame =
        comparison.roles().values().stream().anyMatch(pair -> isNothing(pair.difference()));
    return "The upright line is what "
        + a
        + " weighs. "
        + largest
        + (someSame ? " Roles that are the same in both are left out." : "")
        + " Steps down are hollow; whiskers are ± at 95 %.";
  }
}
