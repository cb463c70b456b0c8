package org.tareline.rollup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.tareline.rollup.Rigs.line;
import static org.tareline.rollup.Rigs.rig;
import static org.tareline.rollup.Rigs.weighed;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.tareline.units.Mass;

class ScopeTest {

  private static List<String> counted(Scope scope) {
    return Roles.ALL.stream()
        .filter(role -> scope.counts(new Line("l", role, 1, weighed("p", "1", 0))))
        .toList();
  }

  /** The built-in scopes as DESIGN, section 2, lists them. */
  @Test
  void theScopesThatExistFromTheStartCountWhatTheySay() {
    assertThat(counted(Scope.COMPLETE)).isEqualTo(Roles.ALL);
    assertThat(counted(Scope.BARS_OUT))
        .hasSize(Roles.ALL.size() - 1)
        .doesNotContain("spreader bar");
    assertThat(counted(Scope.ANCHOR_TO_ANCHOR))
        .containsExactlyInAnyOrder(
            "body",
            "suspension",
            "tree strap",
            "continuous loop",
            "hardware",
            "structural ridge line",
            "bug net",
            "spreader bar");
    assertThat(counted(Scope.ANCHOR_TO_ANCHOR_BARS_OUT))
        .containsExactlyInAnyOrder(
            "body",
            "suspension",
            "tree strap",
            "continuous loop",
            "hardware",
            "structural ridge line",
            "bug net");
    assertThat(counted(Scope.HAMMOCK_ONLY)).containsExactly("body");
    assertThat(Scope.BUILT_IN)
        .extracting(Scope::code)
        .containsExactly(
            "complete",
            "bars-out",
            "anchor-to-anchor",
            "anchor-to-anchor-bars-out",
            "hammock-only");
    assertThat(Scope.builtIn("bars-out")).containsSame(Scope.BARS_OUT);
    assertThat(Scope.builtIn("no such")).isEmpty();
  }

  @Test
  void aRoleOfTheLedgersOwnIsLeftOutWhereRolesAreCountedAndCountedWhereTheyAreLeftOut() {
    Line own = new Line("l", "winter sock", 1, weighed("p", "1", 0));
    assertThat(Scope.ANCHOR_TO_ANCHOR.counts(own)).isFalse();
    assertThat(Scope.BARS_OUT.counts(own)).isTrue();
  }

  @Test
  void theRidgeLineForShortIsTheStructuralOne() {
    assertThat(Roles.normalise("  Ridge \t Line ")).isEqualTo("structural ridge line");
    assertThat(Roles.normalise("tarp ridge line")).isEqualTo("tarp ridge line");
    Scope scope = new Scope("s", "s", Scope.Mode.COUNTS, Set.of("Ridge line"), Set.of());
    assertThat(scope.counts(new Line("l", "ridge line", 1, weighed("p", "1", 0)))).isTrue();
  }

  @Test
  void aNestedRigThatIsLeftOutTakesEverythingInItAlong() {
    Assembly bars = rig("bars", line("body", 1, weighed("sleeve", "20", 0)));
    Assembly whole =
        rig("whole", line("spreader bar", 1, bars), line("body", 1, weighed("cloth", "300", 0)));
    RollUp rollUp = RollUp.of(whole, Scope.BARS_OUT);
    assertThat(rollUp.estimate().value()).isEqualTo(Mass.ofGrams("300"));
    assertThat(rollUp.omitted())
        .containsExactly(new Omission(List.of("whole"), whole.lines().get(0), 1));
  }

  @Test
  void withinANestedRigThatStaysItsOwnLinesRolesCount() {
    Assembly hammock =
        rig(
            "hammock",
            line("body", 1, weighed("cloth", "300", 0)),
            line("spreader bar", 2, weighed("pole", "90", 0)),
            line("stuff sack", 1, weighed("sack", "15", 0)));
    Assembly whole = rig("whole", line("body", 2, hammock));
    assertThat(RollUp.of(whole, Scope.BARS_OUT).estimate().value())
        .isEqualTo(Mass.ofGrams("630")); // 2 × (300 + 15)
    RollUp hammockOnly = RollUp.of(whole, Scope.HAMMOCK_ONLY);
    assertThat(hammockOnly.estimate().value()).isEqualTo(Mass.ofGrams("600")); // 2 × 300
    assertThat(hammockOnly.omitted())
        .containsExactly(
            new Omission(List.of("whole", "hammock"), hammock.lines().get(1), 4),
            new Omission(List.of("whole", "hammock"), hammock.lines().get(2), 2));
  }

  @Test
  void whereRolesAreCountedANestedRigStaysOnlyIfItsLineHasOne() {
    Assembly hammock = rig("hammock", line("body", 1, weighed("cloth", "300", 0)));
    Assembly whole = rig("whole", line("other", 1, hammock));
    assertThat(RollUp.of(whole, Scope.HAMMOCK_ONLY).estimate().value()).isEqualTo(Mass.ZERO);
  }

  @Test
  void aSingleLineCanBeLeftOut() {
    Assembly whole =
        rig(
            "whole",
            new Line("l1", "hardware", 1, weighed("ring", "4", 0)),
            new Line("l2", "hardware", 1, weighed("toggle", "6", 0)));
    Scope scope = new Scope("s", "s", Scope.Mode.LEAVES_OUT, Set.of(), Set.of("l2"));
    assertThat(RollUp.of(whole, scope).estimate().value()).isEqualTo(Mass.ofGrams("4"));
  }

  @Test
  void aScopeSaysInWordsWhatItLeavesOut() {
    assertThat(Scope.COMPLETE.words()).isEqualTo("nothing left out");
    assertThat(Scope.BARS_OUT.words()).isEqualTo("spreader bar left out");
    assertThat(Scope.HAMMOCK_ONLY.words()).isEqualTo("only body counted, the rest left out");
    assertThat(Scope.ANCHOR_TO_ANCHOR_BARS_OUT.words())
        .isEqualTo(
            "only body, suspension, tree strap, continuous loop, hardware, structural ridge line,"
                + " bug net counted, the rest left out");
    Scope lines = new Scope("s", "s", Scope.Mode.LEAVES_OUT, Set.of("tarp"), Set.of("a", "b"));
    assertThat(lines.words()).isEqualTo("tarp left out; 2 single lines left out");
  }

  @Test
  void rolesAreTheSameWordsInTurkey() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("tr-TR")); // where I is not the capital of i
      assertThat(Roles.normalise("STRUCTURAL RIDGE LINE")).isEqualTo("structural ridge line");
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void aLineOfNoneAndARigWithOneLineTwiceAreRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> line("body", 0, weighed("cloth", "300", 0)))
        .withMessageContaining("cloth must be 1 or more, not 0");
    Line line = line("body", 1, weighed("cloth", "300", 0));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> rig("whole", line, line))
        .withMessageContaining("whole has two lines with the id");
  }
}
