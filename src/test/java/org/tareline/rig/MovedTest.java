package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.part.WhereUsed;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.units.Mass;

@FeatureTest
class MovedTest {

  @Test
  void a_new_weighing_moves_the_rigs_that_hold_the_part_and_no_others(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    Parts parts = ledger.server().bean(Parts.class);
    Part strap = workshop.stated("STRAP", "30 g", "3 g");
    workshop.stated("BODY", "200 g", "6 g");
    workshop.rig("ZEBRA", part("STRAP", 2, "tree strap"));
    workshop.rig("APART", part("BODY", 1, "body"));
    workshop.rig("ALL", rig("ZEBRA", 3, "suspension"), part("BODY", 1, "body"));
    PartMass before = parts.mass(ledger.member(), strap);
    workshop.scale("BENCH", "0.1 g");
    workshop.weigh(strap, "BENCH", "31.5 g");
    PartMass after = parts.mass(ledger.member(), strap);

    List<Moved> moved = moved(ledger, strap, before, after);

    assertThat(moved).extracting(Moved::code).containsExactly("ZEBRA", "ALL");
    Moved all = moved.get(1);
    assertThat(all.before()).isNotNull();
    assertThat(all.after().value()).isEqualTo(Mass.ofGrams("389"));
    assertThat(all.change().value()).isEqualTo(Mass.ofGrams("9"));
    assertThat(all.atLeast()).isFalse();
    assertThat(moved(ledger, strap, after, after)).isEmpty();
  }

  @Test
  void where_nothing_was_known_there_is_no_before(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    Part strap = workshop.unknown("STRAP");
    workshop.rig("KIT", part("STRAP", 2, "tree strap"));
    workshop.scale("BENCH", "0.1 g");
    workshop.weigh(strap, "BENCH", "31.5 g");
    PartMass after = ledger.server().bean(Parts.class).mass(ledger.member(), strap);

    Moved kit = moved(ledger, strap, PartMass.UNKNOWN, after).get(0);

    assertThat(kit.before()).isNull();
    assertThat(kit.after().value()).isEqualTo(Mass.ofGrams("63"));
  }

  @Test
  void a_part_says_which_rigs_it_stands_in_and_how_often(TestLedger ledger, TestLedger other) {
    Workshop workshop = new Workshop(ledger);
    Part strap = workshop.unknown("STRAP");
    workshop.rig("KIT", part("STRAP", 2, "tree strap"), part("STRAP", 1, "other"));
    workshop.rig("ALL", rig("KIT", 3, "suspension"));
    WhereUsed uses = ledger.server().bean(UsesInRigs.class);

    assertThat(uses.usesOf(ledger.member(), strap.id()))
        .containsExactly(new WhereUsed.Use("rig", "KIT", "the rig KIT", 3));
    assertThat(uses.usesOf(other.member(), strap.id())).isEmpty();
  }

  private static List<Moved> moved(TestLedger ledger, Part part, PartMass before, PartMass after) {
    return ledger
        .server()
        .bean(Rigs.class)
        .moved(ledger.member(), Map.of(part.id(), before), Map.of(part.id(), after));
  }
}
