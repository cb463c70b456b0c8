package org.tareline.weighing.web;

import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.ledger.Member;
import org.tareline.site.AsTyped;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;

/** The scales of a ledger, and the form that adds one. */
@Controller
class ScaleController {

  /** A scale as typed. */
  record ScaleForm(
      @Nullable String code,
      @Nullable String name,
      @Nullable String readability,
      @Nullable String capacity,
      @Nullable String repeatability,
      @Nullable String spanTolerance) {

    Scales.Entry entry() {
      return new Scales.Entry(code, name, readability, capacity, repeatability, spanTolerance);
    }
  }

  /**
   * A scale as a page shows it, figures as typed.
   *
   * @param repeatability null where it is not known, and so {@code span}
   * @param lastUsed null where it never was
   */
  record ScaleRow(
      String code,
      String name,
      String unit,
      String readability,
      String capacity,
      @Nullable String repeatability,
      @Nullable String span,
      long weighings,
      @Nullable String lastUsed) {}

  private final Scales scales;
  private final Moments moments;

  ScaleController(Scales scales, Moments moments) {
    this.scales = scales;
    this.moments = moments;
  }

  @GetMapping("/scales")
  String scales(Member member, Model model) {
    return page(member, model, new ScaleForm("", "", "", "", "", ""));
  }

  @PostMapping("/scales")
  Object add(
      Member member,
      @ModelAttribute("form") ScaleForm form,
      Model model,
      HttpServletResponse response,
      RedirectAttributes flash) {
    try {
      Scale scale = scales.add(member, form.entry());
      flash.addFlashAttribute("done", scale.code() + " is in the ledger.");
      return SeeOther.page("/scales/{code}", scale.code());
    } catch (Refusal refusal) {
      response.setStatus(422);
      model.addAttribute("faults", refusal.faults());
      return page(member, model, form);
    }
  }

  private String page(Member member, Model model, ScaleForm form) {
    Map<Long, Scales.Use> uses = scales.uses(member);
    List<ScaleRow> rows =
        scales.all(member).stream().map(scale -> row(scale, uses.get(scale.id()))).toList();
    model.addAttribute("scales", rows);
    model.addAttribute("form", form);
    return "weighing/scales";
  }

  private ScaleRow row(Scale scale, Scales.@Nullable Use use) {
    return new ScaleRow(
        scale.code(),
        scale.name(),
        scale.unit().symbol(),
        AsTyped.text(scale.readabilityTyped(), Unit.GRAM),
        AsTyped.text(scale.capacityTyped(), Unit.GRAM),
        scale.repeatabilityTyped() == null
            ? null
            : AsTyped.text(scale.repeatabilityTyped(), Unit.GRAM),
        scale.spanTyped(),
        use == null ? 0 : use.weighings(),
        use == null ? null : moments.day(use.lastUsed()));
  }
}
