package org.tareline.rig.api;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
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

  CompareResource(Rigs rigs, Scopes scopes) {
    this.rigs = rigs;
    this.scopes = scopes;
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
    return CompareJson.of(rollUps, asked);
  }
}
