package org.tareline.part.web;

import java.util.List;
import java.util.Map;
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
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.PartVariants;
import org.tareline.part.Parts;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.part.WhatIfs;
import org.tareline.site.CandidateTable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** What a part would be of something else, its variants, and two parts side by side. */
@Controller
class WhatIfController {

  private final Parts parts;
  private final WhatIfs whatIfs;
  private final PartVariants variants;

  WhatIfController(Parts parts, WhatIfs whatIfs, PartVariants variants) {
    this.parts = parts;
    this.whatIfs = whatIfs;
    this.variants = variants;
  }

  /**
   * Each other material of a kind in the place of one.
   *
   * @param text what the code or the name of a candidate has to hold
   */
  @GetMapping("/parts/{code}/what-if")
  String whatIf(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String replace,
      @RequestParam(defaultValue = "") String text,
      Model model) {
    Part part = parts.get(member, code);
    Faults faults = new Faults();
    WhatIfs.Choice choice =
        whatIfs.choice(
            member, List.of(part), Map.of(part.id(), parts.mass(member, part)), replace, faults);
    if (!faults.none()) {
      model.addAttribute("faults", faults.found());
    }
    model.addAttribute("page", WhatIfPage.of(part, choice, text, member.massStyle()));
    return "part/what-if";
  }

  /** The form that makes a variant: a copy, or with another material. */
  @GetMapping("/parts/{code}/variants/new")
  String newVariant(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String replace,
      @RequestParam(required = false) @Nullable String by,
      Model model) {
    Part part = parts.get(member, code);
    VariantForm form =
        new VariantForm(
            variants.freeCode(member, part),
            PartVariants.name(part.name(), null),
            "0",
            replace,
            by);
    return form(member, part, form, model);
  }

  @PostMapping("/parts/{code}/variants/new")
  Object addVariant(
      Member member,
      @PathVariable String code,
      @ModelAttribute("form") VariantForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Part variant = variants.add(member, code, form.entry());
      flash.addFlashAttribute(
          "done", variant.code() + " is in the ledger, as a variant of " + code + ".");
      return SeeOther.page("/parts/{code}", variant.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return form(member, parts.get(member, code), form, model);
    }
  }

  private String form(Member member, Part part, VariantForm form, Model model) {
    model.addAttribute("part", part);
    model.addAttribute("form", form);
    if (!form.replaced().isEmpty()) {
      WhatIf whatIf = whatIfs.of(member, part, parts.mass(member, part), form.replaced());
      model.addAttribute("strengths", whatIf.swaps().stream().map(Swap::words).toList());
      model.addAttribute(
          "difference", CandidateTable.words(whatIf.difference(), member.massStyle()));
    }
    return "part/variant-form";
  }

  /**
   * Two parts side by side.
   *
   * @param other code of the one that is held against the first; nothing is compared without it
   */
  @GetMapping("/parts/{code}/beside")
  String beside(
      Member member,
      @PathVariable String code,
      @RequestParam(defaultValue = "") String other,
      Model model) {
    Part first = parts.get(member, code);
    Part second = Codes.couldBe(other) ? parts.find(member, other).orElse(null) : null;
    model.addAttribute("part", first);
    model.addAttribute("other", other);
    PartVariants.Kin kin = variants.kin(member, first);
    model.addAttribute(
        "kin", Stream.concat(Stream.ofNullable(kin.original()), kin.variants().stream()).toList());
    if (second == null && !other.isBlank()) {
      model.addAttribute(
          "faults",
          List.of(
              new Refusal.Fault(
                  "other", "There is no part " + Faults.shortened(other) + " in this ledger.")));
    }
    if (second != null) {
      Map<Long, PartMass> masses = parts.masses(member, List.of(first, second));
      model.addAttribute(
          "page",
          BesidePage.of(
              first,
              masses.getOrDefault(first.id(), PartMass.UNKNOWN),
              parts.calculation(member, first).orElse(null),
              second,
              masses.getOrDefault(second.id(), PartMass.UNKNOWN),
              parts.calculation(member, second).orElse(null),
              member.massStyle()));
    }
    return "part/beside";
  }
}
