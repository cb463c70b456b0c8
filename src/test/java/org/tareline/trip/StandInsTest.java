package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Line;
import org.tareline.rollup.Piece;

class StandInsTest {

  private static final Piece BAR = new Piece("BAR", "BAR", "bar", null, null);
  private static final Piece TIP = new Piece("TIP", "TIP", "tip", null, null);

  private static Assembly rig(String code, Object... quantitiesAndContents) {
    List<Line> lines = new ArrayList<>();
    for (int i = 0; i < quantitiesAndContents.length; i += 2) {
      lines.add(
          new Line(
              code + i,
              "other",
              (int) quantitiesAndContents[i],
              (Content) quantitiesAndContents[i + 1]));
    }
    return new Assembly(code, code, code, lines);
  }

  private static StandIns.Stand stand(String line, int quantity, String... places) {
    List<StandIns.Place> named = new ArrayList<>();
    for (int i = 0; i < places.length; i += 2) {
      named.add(new StandIns.Place(places[i], places[i + 1]));
    }
    return new StandIns.Stand(line, quantity, named);
  }

  private static long served(StandIns standIns, String line) {
    return standIns.served(line).stream().mapToLong(StandIns.Served::count).sum();
  }

  private static StandIns of(Assembly rig, int quantity, StandIns.Stand... stands) {
    return StandIns.of(List.of(new StandIns.Holder("rig", rig, quantity)), List.of(stands));
  }

  @Test
  void as_many_are_served_for_as_there_are_things_and_never_more_than_there_are_pieces() {
    Assembly two = rig("R", 2, BAR);

    assertThat(served(of(two, 1, stand("pole", 1, "R", "BAR")), "rig")).isEqualTo(1);
    assertThat(served(of(two, 1, stand("pole", 2, "R", "BAR")), "rig")).isEqualTo(2);
    assertThat(served(of(two, 1, stand("pole", 3, "R", "BAR")), "rig")).isEqualTo(2);
    assertThat(of(two, 1, stand("pole", 3, "R", "BAR")).idle()).isEmpty();
    assertThat(served(of(two, 3, stand("pole", 5, "R", "BAR")), "rig")).isEqualTo(5);
  }

  @Test
  void two_things_serve_for_two_parts_one_each() {
    StandIns standIns = of(rig("R", 1, BAR, 4, TIP), 1, stand("pole", 3, "R", "BAR", "R", "TIP"));

    assertThat(standIns.served("rig"))
        .extracting(each -> each.leaf().piece().code() + " " + each.count())
        .containsExactly("BAR 1", "TIP 2");
  }

  @Test
  void a_part_in_a_nested_rig_is_found_by_either_rig_and_counted_once() {
    Assembly bars = rig("BARS", 2, BAR);
    Assembly hang = rig("HANG", 2, bars, 1, TIP);

    assertThat(served(of(hang, 1, stand("pole", 9, "BARS", "BAR")), "rig")).isEqualTo(4);
    StandIns both = of(hang, 1, stand("a", 3, "BARS", "BAR"), stand("b", 2, "HANG", "BAR"));
    assertThat(served(both, "rig")).isEqualTo(4);
    assertThat(both.idle()).containsExactly(new StandIns.Idle("b", 0, StandIns.Why.SERVED_ALREADY));
  }

  @Test
  void what_comes_to_nothing_says_why() {
    Assembly one = rig("R", 1, BAR, 1, TIP);

    assertThat(of(one, 1, stand("a", 1, "R", "BAR"), stand("b", 1, "R", "BAR")).idle())
        .containsExactly(new StandIns.Idle("b", 0, StandIns.Why.SERVED_ALREADY));
    assertThat(of(one, 1, stand("a", 1, "R", "BAR", "R", "TIP")).idle())
        .containsExactly(new StandIns.Idle("a", 1, StandIns.Why.TOO_FEW));
    assertThat(of(one, 1, stand("a", 1, "R", "BAR", "R", "BAR")).idle())
        .containsExactly(new StandIns.Idle("a", 1, StandIns.Why.TOO_FEW));
    assertThat(of(one, 1, stand("a", 2, "R", "BAR", "R", "BAR")).idle())
        .containsExactly(new StandIns.Idle("a", 1, StandIns.Why.SERVED_ALREADY));
    assertThat(of(one, 1, stand("a", 1, "OTHER", "BAR", "R", "TIP")).idle())
        .containsExactly(new StandIns.Idle("a", 0, StandIns.Why.NOT_ON_TRIP));
    assertThat(served(of(one, 1, stand("a", 1, "OTHER", "BAR", "R", "TIP")), "rig")).isEqualTo(1);
  }
}
