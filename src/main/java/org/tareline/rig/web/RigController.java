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
import org.tareline.rig.OpenTotals;
import org.tareline.rig.Reconciliations;
import org.tareline.rig.Rig;
import org.tareline.rig.RigVariants;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rig.Targets;
import org.tareline.rig.ToWeigh;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
import org.tareline.site.SeeOther;
import org.tareline.units.Mass;

/** A rig: what it weighs, what that is made of, and what stands behind it. */
@Controller
class RigController {

  private final Rigs rigs;
  private final Scopes scopes;
  private final Reconciliations reconciliations;
  private final ToWeigh toWeigh;
  private final RigVariants variants;
  private final Moments moments;
  private final Clock clock;

  RigController(
      Rigs rigs,
      Scopes scopes,
      Reconciliations reconciliations,
      ToWeigh toWeigh,
      RigVariants variants,
      Moments moments,
      Clock clock) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.reconciliations = reconciliations;
    this.toWeigh = toWeigh;
    this.variants = variants;
    this.moments = moments;
    this.clock = clock;
  }

  /** The page; a target, if one is named, stands in its weight statement. */
  @GetMapping("/rigs/{code}")
  Object rig(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String target,
      Model model) {
    Rig rig = rigs.get(member, code);
    if (!Codes.key(rig.code()).equals(Codes.key(code))) {
      return SeeOther.page("/rigs/{code}", rig.code());
    }
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp rollUp = forest.rollUp(rig.id(), scopes.get(member, scope));
    fill(member, rig, forest, rollUp, target, model);
    model.addAttribute("kin", variants.kin(member, rig));
    toWeigh
        .forTotal(member, rollUp, null, NextWeighings.Which.THAT_HELP)
        .ifPresent(found -> model.addAttribute("next", NextPanel.of(found, member.massStyle())));
    return "rig/rig";
  }

  /** All that stands behind its total, to be printed on one sheet. */
  @GetMapping("/rigs/{code}/statement")
  Object statement(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String target,
      Model model) {
    Rig rig = rigs.get(member, code);
    if (!Codes.key(rig.code()).equals(Codes.key(code)) && !member.guest()) {
      return SeeOther.page("/rigs/{code}/statement", rig.code());
    }
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp rollUp = forest.rollUp(rig.id(), scopes.get(member, scope));
    fill(member, rig, forest, rollUp, target, model);
    model.addAttribute("shared", StatementLink.page(rig, scope, target));
    model.addAttribute("sheet", StatementSheet.of(rollUp, forest, member, new Days()));
    return "rig/statement";
  }

  /** What both pages show. */
  private void fill(
      Member member, Rig rig, Forest forest, RollUp rollUp, @Nullable String target, Model model) {
    Faults faults = new Faults();
    Mass read = Targets.read(faults, target);
    if (!faults.none()) {
      model.addAttribute("faults", faults.found());
    }
    model.addAttribute("target", target == null ? "" : target);
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
    model.addAttribute(
        "whole",
        WholePanel.of(
            reconciliations.hold(member, rig, forest, rollUp), member.massStyle(), new Days()));
    model.addAttribute(
        "weight", OpenTotals.statement(member, rollUp.leaves(), rollUp.estimate(), read));
  }

  /** What a total, or that of one role, is the sum of. */
  @GetMapping("/rigs/{code}/total")
  Object total(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String role,
      Model model) {
    Scope counted = scopes.get(member, scope);
    RollUp rollUp = rigs.rollUps(member, List.of(code), counted).get(0);
    model.addAttribute("page", TotalPage.of(rollUp, role, member.massStyle()));
    return "rig/total";
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
