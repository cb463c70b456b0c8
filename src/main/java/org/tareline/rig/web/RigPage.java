package org.tareline.rig.web;

import static org.tareline.site.SumTable.percent;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.WhereUsed;
import org.tareline.rig.Forest;
import org.tareline.rig.Rig;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Entry;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Omission;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Figure;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * A rig as its page shows it under a scope.
 *
 * @param quote the sentence to quote; null where nothing is counted
 * @param scope code of what is counted
 * @param unit of the columns of masses
 * @param doubts whose error makes up the total's, the greatest share first
 * @param ownWords roles that are not of the common list
 */
record RigPage(
    String code,
    String name,
    @Nullable String note,
    int revision,
    @Nullable String quote,
    String scope,
    List<ScopeLink> scopes,
    LeftOut leftOut,
    String unit,
    String caption,
    List<Row> rows,
    Total total,
    boolean addsUp,
    List<Thing> missing,
    List<RoleRow> roles,
    boolean rolesAddUp,
    Bars bars,
    String finding,
    Certainty certainty,
    List<Doubt> doubts,
    List<String> ownWords,
    List<WhereUsed.Use> standsIn) {

  private static final int MOST_DOUBTS = 12;
  private static final int DEEPEST_INDENT = 4;

  /** A way of counting that the page can be shown under. */
  record ScopeLink(String code, String name, boolean shown) {}

  /**
   * What is not counted.
   *
   * @param words what the scope says
   * @param things of this rig that it leaves out
   */
  record LeftOut(String words, List<LeftOutThing> things) {}

  /** A line that is left out, with all it holds; kind is in the plural, as in the address. */
  record LeftOutThing(String kind, String code, String name, String words) {}

  /** A part or a rig to link to; kind is in the plural, as in the address. */
  record Thing(String kind, String code, String name) {}

  /**
   * A line of the breakdown.
   *
   * @param indent a class of the stylesheet, by the level
   * @param partOf code of the rig that holds it; empty where that is the whole
   * @param inAll how many of it are in the whole, where the quantity alone does not say it
   */
  record Row(
      Thing thing,
      boolean nested,
      String indent,
      String partOf,
      String role,
      String quantity,
      @Nullable String inAll,
      @Nullable Figure figure,
      boolean atLeast,
      String share,
      String basis) {}

  /** The foot of the table. */
  record Total(String label, @Nullable Figure figure, String share, String basis) {}

  /** All of one role together. */
  record RoleRow(String role, @Nullable Figure figure, boolean atLeast, String share) {}

  /** What stands behind the ±. */
  record Certainty(String standard, String factor, String degreesOfFreedom) {}

  /** How much of the total's variance is a line's. */
  record Doubt(Thing thing, String role, String share) {}

  static RigPage of(
      Member member,
      Rig rig,
      RollUp rollUp,
      Forest forest,
      List<Scope> scopes,
      List<WhereUsed.Use> standsIn,
      Dates dates) {
    MassStyle style = member.massStyle();
    List<Level> levels = levels(rollUp);
    List<@Nullable Estimate> column = new ArrayList<>();
    levels.forEach(level -> column.add(level.entry().estimate()));
    column.add(rollUp.estimate());
    int decimals = Figure.decimals(column, style);
    List<RoleSum> sums = RoleSum.of(rollUp);
    int roleDecimals =
        Figure.decimals(
            sums.stream().map(sum -> sum.known() ? sum.estimate() : null).toList(), style);
    return new RigPage(
        rig.code(),
        rig.name(),
        rig.note().orElse(null),
        forest.revision(rig.id()),
        Quote.of(rollUp, forest, style, dates),
        rollUp.scope().code(),
        scopes.stream()
            .map(
                scope ->
                    new ScopeLink(
                        scope.code(), scope.name(), scope.code().equals(rollUp.scope().code())))
            .toList(),
        leftOut(rollUp),
        style.heading(),
        caption(rig, rollUp, dates),
        levels.stream().map(level -> row(level, style, decimals)).toList(),
        total(rollUp, style, decimals),
        style.addsUp(
            masses(rollUp.lines().stream().map(Entry::estimate).toList()),
            rollUp.estimate().value(),
            decimals),
        rollUp.missing().stream().map(RigPage::thing).toList(),
        sums.stream()
            .map(
                sum ->
                    new RoleRow(
                        sum.role(),
                        sum.known() ? Figure.of(sum.estimate(), style, roleDecimals) : null,
                        sum.known() && sum.atLeast(),
                        sum.known() ? percent(sum.share()) : ""))
            .toList(),
        style.addsUp(
            masses(sums.stream().map(RoleSum::estimate).toList()),
            rollUp.estimate().value(),
            roleDecimals),
        Bars.of(
            sums.stream()
                .filter(RoleSum::known)
                .map(sum -> new Bars.Row(sum.role(), sum.estimate()))
                .toList(),
            style,
            roleDecimals),
        finding(sums),
        certainty(rollUp.estimate(), style),
        doubts(rollUp),
        ownWords(rollUp),
        standsIn);
  }

  /** A role with the sum of what is known of it. */
  private record RoleSum(
      String role, Estimate estimate, boolean known, boolean atLeast, double share) {

    /** The heaviest first. */
    static List<RoleSum> of(RollUp rollUp) {
      Set<String> known =
          rollUp.leaves().stream()
              .filter(leaf -> leaf.estimate() != null)
              .map(leaf -> leaf.line().role())
              .collect(Collectors.toSet());
      double whole = rollUp.estimate().value().inGrams();
      List<RoleSum> sums = new ArrayList<>();
      rollUp
          .byRole()
          .forEach(
              (role, total) ->
                  sums.add(
                      new RoleSum(
                          role,
                          total.estimate(),
                          known.contains(role),
                          total.atLeast(),
                          whole == 0 ? 0 : total.estimate().value().inGrams() / whole)));
      sums.sort(Comparator.comparing(RoleSum::share).reversed());
      return sums;
    }
  }

  /** An entry with how deep it stands and in what. */
  private record Level(Entry entry, int depth, String partOf) {}

  private static List<Level> levels(RollUp rollUp) {
    List<Level> levels = new ArrayList<>();
    rollUp.lines().forEach(entry -> lay(entry, 0, "", levels));
    return levels;
  }

  private static void lay(Entry entry, int depth, String partOf, List<Level> levels) {
    levels.add(new Level(entry, depth, partOf));
    String code = entry.line().content().code();
    entry.children().forEach(child -> lay(child, depth + 1, code, levels));
  }

  private static Row row(Level level, MassStyle style, int decimals) {
    Entry entry = level.entry();
    Estimate estimate = entry.estimate();
    Basis basis = entry.basis();
    int quantity = entry.line().quantity();
    return new Row(
        thing(entry.line().content()),
        entry.line().content() instanceof Assembly,
        level.depth() == 0 ? "" : "indent-" + Math.min(level.depth(), DEEPEST_INDENT),
        level.partOf(),
        entry.line().role(),
        String.valueOf(quantity),
        entry.count() == quantity ? null : entry.count() + " in all",
        Figure.orNull(estimate, style, decimals),
        estimate != null && entry.atLeast(),
        estimate == null ? "" : percent(entry.shareOfMass()),
        basis == null ? "not known" : basis.pageWords());
  }

  static Thing thing(Content content) {
    return new Thing(
        content instanceof Assembly ? "rigs" : "parts", content.code(), content.name());
  }

  private static Total total(RollUp rollUp, MassStyle style, int decimals) {
    Basis basis = rollUp.basis();
    return new Total(
        rollUp.atLeast() ? "Total, at least" : "Total",
        basis == null ? null : Figure.of(rollUp.estimate(), style, decimals),
        basis == null ? "" : percent(1),
        basis == null ? "not known" : basis.pageWords());
  }

  private static LeftOut leftOut(RollUp rollUp) {
    String words = rollUp.scope().words();
    return new LeftOut(
        words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1) + ".",
        rollUp.omitted().stream().map(RigPage::leftOutThing).toList());
  }

  private static LeftOutThing leftOutThing(Omission omission) {
    Thing thing = thing(omission.line().content());
    List<String> path = omission.path();
    return new LeftOutThing(
        thing.kind(),
        thing.code(),
        thing.name(),
        (omission.multiplicity() == 1 ? "" : omission.multiplicity() + " of it, ")
            + omission.line().role()
            + (path.size() == 1 ? "" : ", in " + path.get(path.size() - 1)));
  }

  private static String caption(Rig rig, RollUp rollUp, Dates dates) {
    return rig.name()
        + ": "
        + rollUp.scope().name()
        + ", as of "
        + dates.today()
        + ", revision "
        + rig.revision()
        + "; ± at 95 %. A rig in it is followed by what it holds, which its own figure already counts.";
  }

  private static String finding(List<RoleSum> sums) {
    return sums.stream()
        .filter(RoleSum::known)
        .findFirst()
        .map(sum -> "The heaviest role is " + sum.role() + ", " + percent(sum.share()) + " of it.")
        .orElse("");
  }

  private static Certainty certainty(Estimate total, MassStyle style) {
    double degreesOfFreedom = total.effectiveDegreesOfFreedom();
    Mass standard = total.standardUncertainty();
    return new Certainty(
        style.text(standard, style.decimals(standard, 2)),
        new BigDecimal(total.coverageFactor()).setScale(2, RoundingMode.HALF_EVEN).toPlainString(),
        Double.isInfinite(degreesOfFreedom)
            ? "infinite"
            : new BigDecimal(degreesOfFreedom).setScale(1, RoundingMode.HALF_EVEN).toPlainString());
  }

  private static List<Doubt> doubts(RollUp rollUp) {
    return rollUp.leaves().stream()
        .filter(leaf -> leaf.shareOfVariance() != 0)
        .sorted(Comparator.comparingDouble(Leaf::shareOfVariance).reversed())
        .limit(MOST_DOUBTS)
        .map(
            leaf ->
                new Doubt(thing(leaf.piece()), leaf.line().role(), percent(leaf.shareOfVariance())))
        .toList();
  }

  private static List<String> ownWords(RollUp rollUp) {
    Set<String> own = new TreeSet<>();
    rollUp.leaves().forEach(leaf -> own.add(leaf.line().role()));
    rollUp.lines().forEach(entry -> own.add(entry.line().role()));
    Roles.ALL.forEach(own::remove);
    return List.copyOf(own);
  }

  private static List<Mass> masses(List<? extends @Nullable Estimate> estimates) {
    return estimates.stream().filter(Objects::nonNull).map(Estimate::value).toList();
  }

  /** Days as this page writes them. */
  interface Dates {
    String today();

    String of(Instant instant);
  }
}
