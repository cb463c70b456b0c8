package org.tareline.part;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;

/**
 * A part as its cut list is, and as it would be with other materials in it. The errors of what is
 * the same in both are the same sources, those of the cutting included: they cancel in the
 * difference.
 *
 * @param now what the part weighs by the best evidence there is
 * @param swaps those of which the list has the material, in their order
 */
public record WhatIf(
    Part part, PartMass now, Calculation before, Calculation after, List<Swap> swaps) {

  /** Calculated after − calculated before. */
  public Estimate difference() {
    return after.estimate().minus(before.estimate());
  }

  /**
   * What the part would weigh: what it weighs now and the difference. Where it was weighed, what
   * the weighing has and the cut list has not, stays.
   *
   * @return null where nothing is known of what it weighs
   */
  public @Nullable Estimate then() {
    Estimate weighs = now.estimate();
    return weighs == null ? null : weighs.plus(difference());
  }

  /** Whether what it weighs now is not what its cut list comes to. */
  public boolean weighed() {
    return now.estimate() != null && now.basis() != Basis.CALCULATED;
  }

  /** How the one comes from the other, as a sentence. */
  public String how() {
    if (now.basis() == Basis.CALCULATED) {
      return "By the cut list, before and after.";
    }
    Estimate then = then();
    if (then == null || now.basis() == null) {
      return "Nothing is known of what it weighs.";
    }
    String known =
        switch (now.basis()) {
          case ESTIMATED -> "Stated";
          case MIXED -> "Weighed in part";
          case WEIGHED, CALCULATED -> "Weighed";
        };
    return known
        + ": the difference is by the cut list, and is added to what it weighs now."
        + (then.value().signum() > 0
            ? ""
            : " Nothing would be left of it: the weighing and the cut list are not of the same thing.");
  }

  /**
   * What the part would hold, as far as its cut list tells: what was stated of it was of the
   * materials it had.
   */
  public Optional<Strength> strengthAfter() {
    return part.strength().isPresent() ? Optional.empty() : after.strength();
  }

  public CostChange cost() {
    return CostChange.of(Need.of(before), Need.of(after), swaps);
  }

  /** What the list as it is wants of the materials that are swapped. */
  public List<Need> needsBefore() {
    return swapped(before);
  }

  /** What the other list wants of them. */
  public List<Need> needsAfter() {
    return swapped(after);
  }

  private List<Need> swapped(Calculation calculation) {
    Set<Long> ids =
        swaps.stream()
            .flatMap(swap -> Stream.of(swap.from().id(), swap.to().id()))
            .collect(Collectors.toSet());
    return Need.of(calculation).stream()
        .filter(need -> ids.contains(need.material().id()))
        .toList();
  }

  /** What else changes with the materials, as sentences. */
  public List<String> notes() {
    return after.lines().stream().flatMap(line -> refilled(line).stream()).distinct().toList();
  }

  private static Optional<String> refilled(Calculation.Line line) {
    String typed = line.line().typed().get(CutSize.FILL_POWER);
    String filled = line.typed().get(CutSize.FILL_POWER);
    return typed == null || typed.equals(filled)
        ? Optional.empty()
        : Optional.of(
            "The fill power of "
                + line.material().code()
                + ", "
                + filled
                + ", is taken in the place of "
                + typed
                + ".");
  }
}
