package org.tareline.rig;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.Faults;
import org.tareline.testing.Answer;
import org.tareline.testing.TestLedger;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** Puts parts, weighings and rigs into a test's ledger. */
final class Workshop {

  /** A line of a rig as it is sent. */
  record Line(Map<String, Object> json) {

    static Line part(String code, int quantity, String role) {
      return of("part", code, quantity, role);
    }

    static Line rig(String code, int quantity, String role) {
      return of("rig", code, quantity, role);
    }

    private static Line of(String kind, String code, int quantity, String role) {
      Map<String, Object> json = new LinkedHashMap<>();
      json.put(kind, code);
      json.put("quantity", quantity);
      json.put("role", role);
      return new Line(json);
    }

    Line withId(String id) {
      Map<String, Object> more = new LinkedHashMap<>(json);
      more.put("id", id);
      return new Line(more);
    }
  }

  private final TestLedger ledger;
  private final Member member;

  Workshop(TestLedger ledger) {
    this.ledger = ledger;
    this.member = ledger.member();
  }

  /** A part with a stated mass, such as {@code 200 g} within {@code 6 g}. */
  Part stated(String code, String mass, String tolerance) {
    return add(code, new Parts.StatedEntry(mass, tolerance));
  }

  /** A part of which nothing is known. */
  Part unknown(String code) {
    return add(code, null);
  }

  private Part add(String code, Parts.@Nullable StatedEntry stated) {
    return ledger
        .server()
        .bean(Parts.class)
        .add(
            member,
            new Parts.Entry(code, "the " + code.toLowerCase(), "hang", "4", stated, null, null));
  }

  /** A scale that is sure to its display alone, with no span error: d/√12 for load and for zero. */
  void scale(String code, String readability) {
    ledger
        .server()
        .bean(Scales.class)
        .add(member, new Scales.Entry(code, "bench scale", readability, "5 kg", "0.05 g", null));
  }

  /** As {@link #scale}, with a stated limit of its span error. */
  void scaleWithSpan(String code, String readability, String spanTolerance) {
    ledger
        .server()
        .bean(Scales.class)
        .add(
            member,
            new Scales.Entry(code, "shed scale", readability, "5 kg", "0.05 g", spanTolerance));
  }

  /** Weighs a part once. */
  Weighing weigh(Part part, String scale, String reading) {
    Weighings weighings = ledger.server().bean(Weighings.class);
    Faults faults = new Faults();
    Weighing read =
        weighings.read(
            member,
            new Weighings.Entry(scale, null, List.of(reading), null, null, null, null, null, null),
            faults);
    faults.refuseIfAny();
    return weighings.log(read, List.of(Placed.part(part.id(), 1)));
  }

  /** Sends a new rig. */
  Answer post(String code, Line... lines) {
    return ledger.api().post("/rigs", body(code, lines));
  }

  /** A new rig that is taken. */
  void rig(String code, Line... lines) {
    post(code, lines).expect(201);
  }

  /** Sends a rig anew. */
  Answer put(String code, Line... lines) {
    return ledger.api().put("/rigs/{code}", body(code, lines), code);
  }

  static Map<String, Object> body(String code, Line... lines) {
    List<Map<String, Object>> sent = new ArrayList<>();
    for (Line line : lines) {
      sent.add(line.json());
    }
    return Map.of("code", code, "name", "the rig " + code, "lines", sent);
  }
}
