package org.tareline.trip;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rig.Rigs;
import org.tareline.site.Faults;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Weighings;

/** Puts parts and rigs into a test's ledger, for trips to carry. */
final class Workshop {

  private final TestServer server;
  private final Member member;

  Workshop(TestLedger ledger) {
    this.server = ledger.server();
    this.member = ledger.member();
    server
        .bean(Scales.class)
        .add(member, new Scales.Entry("BENCH", "bench scale", "1 g", "5 kg", "0.5 g", "1 %"));
  }

  /** A part that nobody has weighed, with a stated mass if one is given. */
  Part part(String code, String name, String system, int owned, @Nullable String stated) {
    return server
        .bean(Parts.class)
        .add(
            member,
            new Parts.Entry(
                code,
                name,
                system,
                String.valueOf(owned),
                stated == null ? null : new Parts.StatedEntry(stated, null),
                null,
                null));
  }

  /** A part that was weighed once, on the bench scale. */
  Part weighed(String code, String name, String system, int owned, String reading) {
    Part part = part(code, name, system, owned, null);
    Weighings weighings = server.bean(Weighings.class);
    Faults faults = new Faults();
    weighings.log(
        weighings.read(
            member,
            new Weighings.Entry(
                "BENCH", null, List.of(reading), null, null, null, null, "2027-03-01", null),
            faults),
        List.of(Placed.part(part.id(), 1)));
    faults.refuseIfAny();
    return part;
  }

  /** A rig of so many of each part or, where the code begins with a {@code >}, of a rig. */
  void rig(String code, String name, Object... quantitiesAndCodes) {
    List<Rigs.LineEntry> lines = new java.util.ArrayList<>();
    for (int i = 0; i < quantitiesAndCodes.length; i += 2) {
      String held = (String) quantitiesAndCodes[i + 1];
      boolean rig = held.startsWith(">");
      lines.add(
          new Rigs.LineEntry(
              null,
              rig ? null : held,
              rig ? held.substring(1) : null,
              String.valueOf(quantitiesAndCodes[i]),
              "other"));
    }
    server.bean(Rigs.class).add(member, new Rigs.Entry(code, name, List.copyOf(lines), null));
  }
}
