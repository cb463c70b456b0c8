package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.PartVariants;
import org.tareline.part.Swap;
import org.tareline.rig.Rig;
import org.tareline.rig.RigVariants;
import org.tareline.rig.RigWhatIf;
import org.tareline.rig.RigWhatIfs;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rollup.Scope;
import org.tareline.site.CandidateTable;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** What a rig would be of something else, and its variants. */
@Controller
class RigWhatIfController {

  /**
   * A code for a variant of something in the rig.
   *
   * @param name of the field
   * @param of code of what it is a variant of
   */
  record CodeField(String name, String of, String typed) {}

  private final Rigs rigs;
  private final Scopes scopes;
  private final RigWhatIfs whatIfs;
  private final RigVariants variants;

  RigWhatIfController(Rigs rigs, Scopes scopes, RigWhatIfs whatIfs, RigVariants variants) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.whatIfs = whatIfs;
    this.variants = variants;
  }

  /**
   * Each other material of a kind in the place of one.
   *
   * @param text what the code or the name of a candidate has to hold
   */
  @GetMapping("/rigs/{code}/what-if")
  String whatIf(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String replace,
      @RequestParam(defaultValue = "") String text,
      Model model) {
    Rig rig = rigs.get(member, code);
    Faults faults = new Faults();
    RigWhatIfs.Choice choice =
        whatIfs.choice(member, rig, scopes.get(member, scope), replace, faults);
    if (!faults.none()) {
      model.addAttribute("faults", faults.found());
    }
    model.addAttribute(
        "page", RigWhatIfPage.of(rig, choice, scopes.all(member), text, member.massStyle()));
    return "rig/what-if";
  }

  /** The form that makes a variant: a copy, or with another material. */
  @GetMapping("/rigs/{code}/variants/new")
  String newVariant(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> sent,
      Model model) {
    Rig rig = rigs.get(member, code);
    Map<String, String> form = new LinkedHashMap<>(sent);
    form.put("code", variants.freeCode(member, rig));
    form.put("name", PartVariants.name(rig.name(), null));
    return form(member, rig, form, model);
  }

  @PostMapping("/rigs/{code}/variants/new")
  Object addVariant(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> sent,
      Model model,
      RedirectAttributes flash) {
    Rig rig = rigs.get(member, code);
    try {
      RigVariants.Plan plan = variants.plan(member, rig, replaced(sent));
      Rig variant =
          variants.add(
              member,
              code,
              new RigVariants.Entry(
                  sent.get("code"),
                  sent.get("name"),
                  replaced(sent),
                  given(RigVariants.PARTS_FIELD, plan.partCodes(), sent),
                  given(RigVariants.RIGS_FIELD, plan.rigCodes(), sent)));
      flash.addFlashAttribute(
          "done", variant.code() + " is in the ledger, as a variant of " + rig.code() + ".");
      return SeeOther.page("/rigs/{code}", variant.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return form(member, rig, sent, model);
    }
  }

  private static RigWhatIfs.Entry replaced(Map<String, String> sent) {
    String replace = sent.getOrDefault("replace", "");
    Map<String, @Nullable String> replaced = new LinkedHashMap<>();
    if (!replace.isBlank()) {
      replaced.put(replace, sent.getOrDefault("by", ""));
    }
    return new RigWhatIfs.Entry(replaced, null);
  }

  private static Map<String, @Nullable String> given(
      String holder, Map<String, String> planned, Map<String, String> sent) {
    Map<String, @Nullable String> given = new LinkedHashMap<>();
    planned.keySet().forEach(of -> given.put(of, sent.get(Faults.entry(holder, of))));
    return given;
  }

  private String form(Member member, Rig rig, Map<String, String> sent, Model model) {
    RigWhatIfs.Entry replaced = replaced(sent);
    RigVariants.Plan plan = variants.plan(member, rig, replaced);
    List<CodeField> codes = new ArrayList<>();
    plan.partCodes()
        .forEach((of, code) -> codes.add(field(RigVariants.PARTS_FIELD, of, code, sent)));
    plan.rigCodes().forEach((of, code) -> codes.add(field(RigVariants.RIGS_FIELD, of, code, sent)));
    model.addAttribute("rig", rig);
    model.addAttribute("form", sent);
    model.addAttribute("codes", codes);
    if (!replaced.isEmpty()) {
      RigWhatIf whatIf = whatIfs.of(member, rig, Scope.COMPLETE, replaced);
      Estimate difference = whatIf.difference();
      model.addAttribute("strengths", whatIf.swaps().stream().map(Swap::words).toList());
      if (difference != null) {
        model.addAttribute("difference", CandidateTable.words(difference, member.massStyle()));
      }
    }
    return "rig/variant-form";
  }

  private static CodeField field(String holder, String of, String code, Map<String, String> sent) {
    String name = Faults.entry(holder, of);
    return new CodeField(name, of, sent.getOrDefault(name, code));
  }
}
