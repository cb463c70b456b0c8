package org.tareline.rig.web;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.tareline.ledger.Member;
import org.tareline.rig.Forest;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Moments;
import org.tareline.site.SeeOther;

/** A rig: what it weighs, and what that is made of. */
@Controller
class RigController {

  private final Rigs rigs;
  private final Scopes scopes;
  private final Moments moments;
  private final Clock clock;

  RigController(Rigs rigs, Scopes scopes, Moments moments, Clock clock) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.moments = moments;
    this.clock = clock;
  }

  @GetMapping("/rigs/{code}")
  Object rig(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      Model model) {
    Rig rig = rigs.get(member, code);
    if (!Codes.key(rig.code()).equals(Codes.key(code))) {
      return SeeOther.page("/rigs/{code}", rig.code());
    }
    Scope counted = scopes.get(member, scope);
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp rollUp = RollUp.of(forest.assembly(rig.id()), counted);
    model.addAttribute(
        "page",
        RigPage.of(
            member,
            rig,
            rollUp,
            forest,
            scopes.all(member),
            rigs.holding(member, rig),
            new Days()));
    return "rig/rig";
  }

  /** The breakdown as a file. */
  @GetMapping("/rigs/{code}/breakdown.csv")
  ResponseEntity<byte[]> file(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope) {
    Rig rig = rigs.get(member, code);
    RollUp rollUp = rigs.rollUps(member, List.of(rig.code()), scopes.get(member, scope)).get(0);
    return Breakdown.csv(rollUp).asFile(rig.code() + " " + rollUp.scope().code() + ".csv");
  }

  /** Days in the zone of the server's clock. */
  private final class Days implements RigPage.Dates {

    @Override
    public String today() {
      return moments.day(clock.instant());
    }

    @Override
    public String of(Instant instant) {
      return moments.day(instant);
    }
  }
}
