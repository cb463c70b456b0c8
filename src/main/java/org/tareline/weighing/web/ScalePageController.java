package org.tareline.weighing.web;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.evidence.WeightClass;
import org.tareline.ledger.Member;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.Refusal.Fault;
import org.tareline.site.SeeOther;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.UnreadableQuantity;
import org.tareline.weighing.Scale;
import org.tareline.weighing.ScaleCheck;
import org.tareline.weighing.ScaleChecks;
import org.tareline.weighing.Scales;

/** The page of a scale: what is known of it, its checks, and the forms that log one. */
@Controller
class ScalePageController {

  private static final int LEAST_ROWS = 3;

  /** A check weight as typed. */
  record WeightRow(
      @Nullable String nominal,
      @Nullable String weightClass,
      @Nullable String tolerance,
      @Nullable String indication) {

    static final WeightRow EMPTY = new WeightRow(null, null, null, null);

    boolean typed() {
      return Stream.of(nominal, tolerance, indication)
          .anyMatch(each -> each != null && !each.isBlank());
    }
  }

  /** A check of the span as typed. */
  record CheckForm(
      @Nullable List<WeightRow> weights, @Nullable String checkedAt, @Nullable String note) {

    List<WeightRow> typed() {
      return weights == null
          ? List.of()
          : weights.stream().filter(row -> row != null && row.typed()).toList();
    }

    /** With some rows to spare. */
    CheckForm withRows(int spare) {
      List<WeightRow> rows = new ArrayList<>(typed());
      for (int i = 0; i < spare || rows.size() < LEAST_ROWS; i++) {
        rows.add(WeightRow.EMPTY);
      }
      return new CheckForm(rows, checkedAt, note);
    }

    ScaleChecks.SpanEntry entry() {
      return new ScaleChecks.SpanEntry(
          new ArrayList<ScaleChecks.@Nullable WeightEntry>(
              typed().stream()
                  .map(
                      row ->
                          new ScaleChecks.WeightEntry(
                              row.nominal(), row.tolerance(), row.weightClass(), row.indication()))
                  .toList()),
          checkedAt,
          note);
    }
  }

  /** A check of repeatability as typed: all readings in one field. */
  record RepeatabilityForm(@Nullable String readings, @Nullable String testedAt) {}

  private static final CheckForm NO_CHECK = new CheckForm(null, null, null).withRows(0);
  private static final RepeatabilityForm NO_READINGS = new RepeatabilityForm(null, null);

  private final Scales scales;
  private final ScaleChecks checks;
  private final Moments moments;
  private final Clock clock;

  ScalePageController(Scales scales, ScaleChecks checks, Moments moments, Clock clock) {
    this.scales = scales;
    this.checks = checks;
    this.moments = moments;
    this.clock = clock;
  }

  @GetMapping("/scales/{code}")
  String scale(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String check,
      Model model) {
    UUID asked = check == null ? null : uuid(check);
    return page(member, scales.get(member, code), asked, model, NO_CHECK, NO_READINGS);
  }

  @PostMapping("/scales/{code}/checks")
  Object check(
      Member member,
      @PathVariable String code,
      @ModelAttribute("checkForm") CheckForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      ScaleChecks.Held made = checks.log(member, code, form.entry());
      flash.addFlashAttribute("done", "The check is kept. " + resting(made));
      return SeeOther.page("/scales/{code}", made.scale().code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(ScalePageController::atItsRow));
      return page(member, scales.get(member, code), null, model, form.withRows(0), NO_READINGS);
    }
  }

  /** The same form with more rows, for whoever has no scripts to add them. */
  @PostMapping(path = "/scales/{code}/checks", params = "more")
  String moreWeights(
      Member member,
      @PathVariable String code,
      @ModelAttribute("checkForm") CheckForm form,
      Model model) {
    return page(
        member, scales.get(member, code), null, model, form.withRows(LEAST_ROWS), NO_READINGS);
  }

  @PostMapping("/scales/{code}/repeatability")
  Object repeatability(
      Member member,
      @PathVariable String code,
      @ModelAttribute("repeatabilityForm") RepeatabilityForm form,
      Model model,
      RedirectAttributes flash) {
    Scale scale = scales.get(member, code);
    try {
      ScaleChecks.Held made =
          checks.log(
              member,
              code,
              new ScaleChecks.RepeatabilityEntry(
                  readings(scale, form.readings()), form.testedAt(), null));
      flash.addFlashAttribute("done", "The readings are kept. " + resting(made));
      return SeeOther.page("/scales/{code}", scale.code());
    } catch (UnreadableQuantity unreadable) {
      model.addAttribute(
          "faults", List.of(new Fault("readings", String.valueOf(unreadable.getMessage()))));
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(FormFields::whole));
    }
    return page(member, scale, null, model, NO_CHECK, form);
  }

  @PostMapping("/scales/{code}/{kind:checks|repeatability}/{id}/strike-out")
  Object strikeOut(
      Member member,
      @PathVariable String code,
      @PathVariable String kind,
      @PathVariable String id,
      @RequestParam(required = false) @Nullable String reason,
      RedirectAttributes flash) {
    ScaleCheck.Kind struck =
        kind.equals("checks") ? ScaleCheck.Kind.SPAN : ScaleCheck.Kind.REPEATABILITY;
    ScaleChecks.Held before = checks.get(member, code, struck, uuid(id));
    checks.strikeOut(member, code, struck, uuid(id), reason);
    flash.addFlashAttribute(
        "done",
        "Struck out: "
            + reason
            + ". "
            + (before.weighings() == 0
                ? "No weighing rested on it."
                : counted(before.weighings())
                    + " rested on it, and "
                    + (before.weighings() == 1 ? "goes" : "go")
                    + " by what counted before."));
    return SeeOther.page("/scales/{code}", before.scale().code());
  }

  /** A check that was dated back changes what was weighed meanwhile, and that is said. */
  private static String resting(ScaleChecks.Held made) {
    return made.weighings() == 0
        ? "It counts from its time on; what was weighed before stays as it was."
        : counted(made.weighings())
            + " made since its time "
            + (made.weighings() == 1 ? "goes" : "go")
            + " by it now.";
  }

  private static String counted(long weighings) {
    return weighings == 1 ? "1 weighing" : weighings + " weighings";
  }

  /**
   * The page calls a weight's class by another name, as a word of the language stands in its way;
   * and that there is no weight is said where the first belongs.
   */
  private static String atItsRow(String field) {
    return field.equals("weights")
        ? "weights[0].nominal"
        : field.replace("].class", "].weightClass");
  }

  /** Several readings stand in one field. */
  private static List<@Nullable String> readings(Scale scale, @Nullable String typed) {
    return typed == null || typed.isBlank()
        ? List.of()
        : new ArrayList<>(
            Quantity.readMany(typed, Kind.MASS, scale.unit()).stream()
                .map(Quantity::text)
                .toList());
  }

  private String page(
      Member member,
      Scale scale,
      @Nullable UUID asked,
      Model model,
      CheckForm form,
      RepeatabilityForm repeatabilityForm) {
    model.addAttribute(
        "scale",
        ScalePage.of(
            scale,
            checks.all(member, scale),
            scales.uses(member).get(scale.id()),
            scale.checkEveryDays(member.settings()),
            scales.overdue(member, scale),
            asked,
            clock.instant(),
            member.massStyle(),
            moments));
    model.addAttribute("checkForm", form);
    model.addAttribute("spareRow", WeightRow.EMPTY);
    model.addAttribute("repeatabilityForm", repeatabilityForm);
    model.addAttribute("classes", classes());
    return "weighing/scale";
  }

  private static List<Choice> classes() {
    return Stream.concat(
            Stream.of(new Choice("", "none")),
            Arrays.stream(WeightClass.values()).map(each -> new Choice(each.name(), each.name())))
        .toList();
  }

  private static UUID uuid(String id) {
    try {
      return UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("check");
    }
  }
}
