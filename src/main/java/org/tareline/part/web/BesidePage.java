package org.tareline.part.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.part.Calculation;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.site.CandidateTable;
import org.tareline.site.Figure;
import org.tareline.units.MassStyle;

/**
 * Two parts side by side, the second against the first.
 *
 * @param words which is lighter, as a sentence
 * @param calculated the same by their cut lists, where that says something else; else null
 * @param lines of the cut lists that are not alike; empty where all are
 * @param alike how many lines are, as a sentence; null where one of them has no list
 */
record BesidePage(
    Side first,
    Side second,
    String words,
    @Nullable String calculated,
    String unit,
    List<Line> lines,
    @Nullable String alike) {

  /**
   * One of the two.
   *
   * @param mass and where it comes from, as words
   */
  record Side(String code, String name, String mass) {}

  /**
   * What is cut, and how much of what for it in each; a figure is null where it has no such line.
   */
  record Line(String what, String first, @Nullable Figure a, String second, @Nullable Figure b) {}

  static BesidePage of(
      Part first,
      PartMass firstMass,
      @Nullable Calculation firstList,
      Part second,
      PartMass secondMass,
      @Nullable Calculation secondList,
      MassStyle style) {
    Estimate a = firstMass.estimate();
    Estimate b = secondMass.estimate();
    Estimate calculated =
        firstList == null || secondList == null
            ? null
            : secondList.estimate().minus(firstList.estimate());
    Estimate difference = a == null || b == null ? null : b.minus(a);
    List<Line> lines = new ArrayList<>();
    int alike = 0;
    if (firstList != null && secondList != null) {
      List<Calculation.Line> all = new ArrayList<>(firstList.lines());
      all.addAll(secondList.lines());
      int decimals = Figure.decimals(all.stream().map(firstList::estimate).toList(), style);
      Map<String, List<Calculation.Line>> ofFirst = byWhat(firstList);
      Map<String, List<Calculation.Line>> ofSecond = byWhat(secondList);
      Set<String> whats = new LinkedHashSet<>(ofFirst.keySet());
      whats.addAll(ofSecond.keySet());
      for (String what : whats) {
        List<Calculation.Line> left = ofFirst.getOrDefault(what, List.of());
        List<Calculation.Line> right = ofSecond.getOrDefault(what, List.of());
        for (int i = 0; i < Math.max(left.size(), right.size()); i++) {
          Calculation.Line one = i < left.size() ? left.get(i) : null;
          Calculation.Line other = i < right.size() ? right.get(i) : null;
          if (words(one).equals(words(other))) {
            alike++;
          } else {
            lines.add(
                new Line(
                    what,
                    words(one),
                    one == null ? null : Figure.of(firstList.estimate(one), style, decimals),
                    words(other),
                    other == null ? null : Figure.of(secondList.estimate(other), style, decimals)));
          }
        }
      }
    }
    return new BesidePage(
        new Side(first.code(), first.name(), firstMass.words(style)),
        new Side(second.code(), second.name(), secondMass.words(style)),
        lead(first, second, difference, style),
        calculated == null || (difference != null && calculated.equals(difference))
            ? null
            : "By their cut lists alone: " + CandidateTable.words(calculated, style) + ".",
        style.heading(),
        lines,
        firstList == null || secondList == null
            ? null
            : alike + (alike == 1 ? " line is" : " lines are") + " alike in both.");
  }

  private static String lead(
      Part first, Part second, @Nullable Estimate difference, MassStyle style) {
    if (difference == null) {
      return "Cannot tell: it is not known what both of them weigh.";
    }
    String words = CandidateTable.words(difference, style);
    return Verdict.of(difference) == Verdict.UNDECIDED
        ? second.code() + " against " + first.code() + ": " + words + "."
        : second.code()
            + " is "
            + words.replaceFirst(" by ", Matcher.quoteReplacement(" than " + first.code() + " by "))
            + ".";
  }

  /** Lines by what is cut, whatever it is cut from and however often. */
  private static Map<String, List<Calculation.Line>> byWhat(Calculation list) {
    return list.lines().stream()
        .collect(
            Collectors.groupingBy(
                line ->
                    (line.line().name().orElse("")
                            + " "
                            + CutListPage.what(line.line())
                            + ": "
                            + CutListPage.sizes(line.line()))
                        .strip(),
                LinkedHashMap::new,
                Collectors.toList()));
  }

  private static String words(Calculation.@Nullable Line line) {
    return line == null ? "none" : line.line().quantity() + " of " + line.material().code();
  }
}
