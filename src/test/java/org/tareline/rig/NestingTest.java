package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class NestingTest {

  private final Nesting nesting = new Nesting();

  @Test
  void rigs_that_share_a_rig_are_no_circle() {
    nesting.put(1, List.of(2L, 3L), 2);
    nesting.put(2, List.of(4L), 1);
    nesting.put(3, List.of(4L), 1);
    nesting.put(4, List.of(), 5);

    assertThat(nesting.circle(1)).isEmpty();
    assertThat(nesting.levels(1)).isEqualTo(3);
    assertThat(nesting.unfoldedLines(1)).isEqualTo(2 + 1 + 5 + 1 + 5);
  }

  @Test
  void the_shortest_of_several_circles_is_named_from_the_rig_round_to_itself() {
    nesting.put(1, List.of(2L, 3L), 2);
    nesting.put(2, List.of(4L), 1);
    nesting.put(3, List.of(1L), 1);
    nesting.put(4, List.of(1L), 1);

    assertThat(nesting.circle(1)).hasValue(List.of(1L, 3L, 1L));
    assertThat(nesting.circle(2)).hasValue(List.of(2L, 4L, 1L, 2L));
  }

  @Test
  void a_rig_in_itself_is_the_smallest_circle() {
    nesting.put(7, List.of(7L), 1);

    assertThat(nesting.circle(7)).hasValue(List.of(7L, 7L));
  }

  @Test
  void a_circle_further_down_is_not_the_rigs_own() {
    nesting.put(1, List.of(2L), 1);
    nesting.put(2, List.of(3L), 1);
    nesting.put(3, List.of(2L), 1);

    assertThat(nesting.circle(1)).isEmpty();
  }

  @Test
  void a_change_changes_every_rig_above_and_none_beside() {
    nesting.put(1, List.of(2L), 1);
    nesting.put(2, List.of(3L), 1);
    nesting.put(4, List.of(3L, 5L), 2);
    nesting.put(5, List.of(), 1);

    assertThat(nesting.changedWith(3)).containsExactlyInAnyOrder(3L, 2L, 1L, 4L);
    assertThat(nesting.changedWith(5)).containsExactlyInAnyOrder(5L, 4L);
  }

  @Test
  void lines_that_double_at_each_of_forty_levels_are_counted_at_once_and_do_not_overflow() {
    for (long level = 1; level <= 40; level++) {
      nesting.put(level, List.of(level + 1, level + 1), 2);
    }
    nesting.put(41, List.of(), 1);

    assertThat(nesting.unfoldedLines(1)).isGreaterThan(Nesting.MOST_UNFOLDED);
    assertThat(nesting.levels(1)).isEqualTo(41);
  }
}
