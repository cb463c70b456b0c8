package org.tareline.rig.api;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.rig.HangLoads;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rig.ToWeigh;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.RollUp;
import org.tareline.site.Refusal;
import org.tareline.site.json.AnswerUnit;
import org.tareline.units.Unit;

/** Rigs side by side. */
@RestController
@RequestMapping("/api/v1/compare")
class CompareResource {

  private static final int MOST = 20;

  private final Rigs rigs;
  private final Scopes scopes;
  private final ToWeigh toWeigh;
  private final HangLoads loads;

  CompareResource(Rigs rigs, Scopes scopes, ToWeigh toWeigh, HangLoads loads) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.toWeigh = toWeigh;
    this.loads = loads;
  }

  /** Compares the second of these rigs, and each after it, with the first. */
  @GetMapping
  CompareJson compare(
      Member member,
      @RequestParam(name = "rig", required = false) @Nullable List<String> codes,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String unit) {
    if (codes == null || codes.size() < 2) {
      throw Refusal.badInput(
          "rig", "Name two rigs to compare, such as rig=one&rig=another; read fewer.");
    }
    if (codes.size() > MOST) {
      throw Refusal.badInput(
          "rig", "Compare at most " + MOST + " rigs at once; read " + codes.size() + ".");
    }
    Unit asked = AnswerUnit.ofMass(unit);
    List<RollUp> rollUps = rigs.rollUps(member, codes, scopes.get(member, scope));
    return CompareJson.of(rollUps, loads.ofThoseHung(member, codes), asked);
  }

  /** Which parts to weigh next, so that the difference of two rigs becomes surer. */
  @GetMapping("/next-weighings")
  NextWeighingsJson nextWeighings(
      Member member,
      @RequestParam(name = "rig", required = false) @Nullable List<String> codes,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String scale,
      @RequestParam(required = false) @Nullable String unit) {
    if (codes == null || codes.size() != 2) {
      throw Refusal.badInput(
          "rig",
          "Name two rigs, such as rig=one&rig=another; read "
              + (codes == null ? "none" : codes.size())
              + ".");
    }
    Unit asked = AnswerUnit.ofMass(unit);
    List<RollUp> rollUps = rigs.rollUps(member, codes, scopes.get(member, scope));
    return toWeigh
        .forDifference(member, rollUps.get(0), rollUps.get(1), scale, NextWeighings.Which.ALL)
        .map(found -> NextWeighingsJson.of(found, asked))
        .orElseThrow(NextWeighingsJson::noScale);
  }
}
