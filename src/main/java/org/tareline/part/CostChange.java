package org.tareline.part;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Need.Cost;

/**
 * What swapping materials does to the cost, by currency.
 *
 * @param before of all that has a price
 * @param after of all that has a price
 * @param difference after − before; null where a material that is swapped has no price that says
 *     what it costs. What stays costs the same, priced or not
 * @param unpriced codes of the materials with no price that says what they cost
 */
public record CostChange(
    List<Cost> before, List<Cost> after, @Nullable List<Cost> difference, Set<String> unpriced) {

  static CostChange of(List<Need> before, List<Need> after, List<Swap> swaps) {
    Set<Long> swapped = new LinkedHashSet<>();
    swaps.forEach(
        swap -> {
          swapped.add(swap.from().id());
          swapped.add(swap.to().id());
        });
    Set<String> unpriced = new LinkedHashSet<>();
    boolean known = true;
    List<Need> all = new ArrayList<>(before);
    all.addAll(after);
    for (Need need : all) {
      if (need.cost() == null) {
        unpriced.add(need.material().code());
        known &= !swapped.contains(need.material().id());
      }
    }
    return of(Need.total(before), Need.total(after), known, unpriced);
  }

  /** That of several parts together, each so many times. */
  public static CostChange sum(Map<WhatIf, Long> counts) {
    List<Cost> before = new ArrayList<>();
    List<Cost> after = new ArrayList<>();
    Set<String> unpriced = new LinkedHashSet<>();
    boolean known = true;
    for (Map.Entry<WhatIf, Long> each : counts.entrySet()) {
      CostChange cost = each.getKey().cost();
      before.addAll(times(cost.before, each.getValue()));
      after.addAll(times(cost.after, each.getValue()));
      unpriced.addAll(cost.unpriced);
      known &= cost.difference != null;
    }
    return of(added(before, 1, List.of()), added(after, 1, List.of()), known, unpriced);
  }

  /** The difference in words. */
  public String words() {
    return difference == null
        ? "the difference is not known"
        : difference.stream()
            .map(
                cost ->
                    cost.amount().signum() == 0
                        ? "no difference"
                        : new Cost(cost.amount().abs(), cost.currency()).words()
                            + (cost.amount().signum() < 0 ? " less" : " more"))
            .collect(Collectors.joining(", "));
  }

  private static CostChange of(
      List<Cost> before, List<Cost> after, boolean known, Set<String> unpriced) {
    return new CostChange(before, after, known ? added(before, -1, after) : null, unpriced);
  }

  private static List<Cost> times(List<Cost> costs, long count) {
    return costs.stream()
        .map(cost -> new Cost(cost.amount().multiply(BigDecimal.valueOf(count)), cost.currency()))
        .toList();
  }

  /** By currency, in the order met. */
  private static List<Cost> added(List<Cost> some, int sign, List<Cost> others) {
    Map<String, BigDecimal> sums = new LinkedHashMap<>();
    some.forEach(
        cost ->
            sums.merge(
                cost.currency(),
                cost.amount().multiply(BigDecimal.valueOf(sign)),
                BigDecimal::add));
    others.forEach(cost -> sums.merge(cost.currency(), cost.amount(), BigDecimal::add));
    return sums.entrySet().stream().map(sum -> new Cost(sum.getValue(), sum.getKey())).toList();
  }
}
