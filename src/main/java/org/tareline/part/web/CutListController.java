package org.tareline.part.web;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.ledger.Member;
import org.tareline.material.Materials;
import org.tareline.material.StockEntries;
import org.tareline.part.Calculation;
import org.tareline.part.CutForm;
import org.tareline.part.Cuts;
import org.tareline.part.LineWeighings;
import org.tareline.part.Part;
import org.tareline.part.PartEvidence;
import org.tareline.part.Parts;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Weighings;

/** A part's cut list: what it comes to, for the cutting table, and the form that changes it. */
@Controller
class CutListController {

  private static final String HOLDER = "buildSheet.";

  private final Parts parts;
  private final Materials materials;
  private final Cuts cuts;
  private final LineWeighings lineWeighings;
  private final Scales scales;
  private final Moments moments;

  CutListController(
      Parts parts,
      Materials materials,
      Cuts cuts,
      LineWeighings lineWeighings,
      Scales scales,
      Moments moments) {
    this.parts = parts;
    this.materials = materials;
    this.cuts = cuts;
    this.lineWeighings = lineWeighings;
    this.scales = scales;
    this.moments = moments;
  }

  /** The list worked out; the form where there is none yet. */
  @GetMapping("/parts/{code}/cut-list")
  Object cutList(Member member, @PathVariable String code, Model model) {
    Part part = parts.get(member, code);
    PartEvidence known = parts.evidence(member, part);
    Calculation calculation = known.calculation();
    if (calculation == null) {
      return SeeOther.page("/parts/{code}/cut-list/edit", part.code());
    }
    return page(member, part, known, calculation, CutOff.empty(), model);
  }

  @PostMapping("/parts/{code}/cut-list/weighings")
  Object weigh(
      Member member,
      @PathVariable String code,
      @ModelAttribute("weighing") LineWeighingForm form,
      Model model,
      RedirectAttributes flash) {
    UUID line = form.lineId().orElseThrow(() -> new NotThere("line of a cut list"));
    try {
      Part part = lineWeighings.log(member, code, line, form.entry()).part();
      flash.addFlashAttribute("done", "The line counts as weighed from now on.");
      return SeeOther.page("/parts/{code}/cut-list", part.code());
    } catch (Refusal refusal) {
      Part part = parts.get(member, code);
      PartEvidence known = parts.evidence(member, part);
      Calculation calculation = known.calculation();
      if (calculation == null) {
        throw refusal;
      }
      model.addAttribute("faults", refusal.faults(FormFields::whole));
      return page(member, part, known, calculation, CutOff.empty(), model);
    }
  }

  private String page(
      Member member,
      Part part,
      PartEvidence known,
      Calculation calculation,
      CutOff cutOff,
      Model model) {
    model.addAttribute("page", CutListPage.of(member, part, known, calculation));
    model.addAttribute("cutOff", cutOff);
    if (!model.containsAttribute("weighing")) {
      model.addAttribute(
          "weighing",
          new LineWeighingForm(
              null, scales.lastUsed(member).map(Scale::code).orElse(null), "", "", ""));
    }
    model.addAttribute("lineChoices", LineWeighingForm.choices(calculation));
    model.addAttribute(
        "lineWeighings",
        lineWeighings.of(member, calculation).stream()
            .map(logged -> LineWeighingForm.Logged.of(logged, member.massStyle(), moments))
            .toList());
    model.addAttribute(
        "scales",
        scales.all(member).stream()
            .map(scale -> new Choice(scale.code(), scale.code() + " – " + scale.name()))
            .toList());
    model.addAttribute("reasons", Weighings.REASONS_TO_STRIKE_OUT);
    return "part/cut-list";
  }

  /** That it was cut: takes what it needs off the stock of its materials. */
  @PostMapping("/parts/{code}/cuts")
  Object cut(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> sent,
      Model model,
      RedirectAttributes flash) {
    CutOff form = CutOff.of(sent);
    try {
      List<StockEntries.Outcome> outcomes = cuts.log(member, code, form.entry());
      flash.addFlashAttribute("done", CutOff.done(outcomes));
      return SeeOther.page("/parts/{code}/cut-list", parts.get(member, code).code());
    } catch (Refusal refusal) {
      Part part = parts.get(member, code);
      PartEvidence known = parts.evidence(member, part);
      Calculation calculation = known.calculation();
      if (calculation == null) {
        throw refusal;
      }
      model.addAttribute("faults", refusal.faults());
      return page(member, part, known, calculation, form, model);
    }
  }

  @GetMapping("/parts/{code}/cut-list/edit")
  String edit(Member member, @PathVariable String code, Model model) {
    Part part = parts.get(member, code);
    return form(
        member, part, CutListForm.of(part, parts.calculation(member, part).orElse(null)), model);
  }

  /** The same form with one more line, or without those to be taken out. */
  @PostMapping(path = "/parts/{code}/cut-list/edit", params = "more")
  String more(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> sent,
      Model model) {
    CutListForm form = CutListForm.of(sent);
    CutForm added = CutListForm.form(sent.getOrDefault("add", ""));
    return form(member, parts.get(member, code), added == null ? form : form.with(added), model);
  }

  @PostMapping("/parts/{code}/cut-list/edit")
  Object change(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> sent,
      Model model,
      RedirectAttributes flash) {
    CutListForm form = CutListForm.of(sent).kept();
    try {
      Part part = parts.cut(member, code, form.entry(), form.expected());
      flash.addFlashAttribute("done", "The cut list of " + part.code() + " was saved.");
      return form.lines().isEmpty()
          ? SeeOther.page("/parts/{code}", part.code())
          : SeeOther.page("/parts/{code}/cut-list", part.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(CutListController::atField));
      return form(member, parts.get(member, code), form, model);
    }
  }

  private static String atField(String field) {
    return field.equals(HOLDER + "lines")
        ? ""
        : field.startsWith(HOLDER) ? field.substring(HOLDER.length()) : field;
  }

  private String form(Member member, Part part, CutListForm form, Model model) {
    model.addAttribute("materials", materials.all(member));
    model.addAttribute("part", part);
    model.addAttribute("form", form);
    model.addAttribute(
        "forms",
        Arrays.stream(CutForm.values())
            .map(each -> new Choice(each.name(), Words.of(each)))
            .toList());
    model.addAttribute(
        "legends", form.lines().stream().map(line -> Words.of(line.form())).toList());
    return "part/cut-list-form";
  }
}
