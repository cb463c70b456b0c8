package org.tareline.ledger.web;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Ledgers;
import org.tareline.ledger.Member;
import org.tareline.ledger.Settings;
import org.tareline.site.FormFields;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** What a ledger takes for granted, as a form. */
@Controller
class SettingsController {

  /**
   * A field of the form, named as in the API.
   *
   * @param hint null where the text around it says enough
   */
  record Field(String name, String label, @Nullable String typed, @Nullable String hint) {}

  /**
   * The form.
   *
   * @param revision the one that the change starts from
   */
  record Page(
      List<Field> allowances,
      Field statedTolerance,
      List<Field> air,
      Field checkEvery,
      Field designFactor,
      String revision) {

    /**
     * The form with what was typed, by the name of the field.
     *
     * @param meanwhile what somebody else has saved since; empty where nobody has
     */
    static Page of(Map<String, String> typed, Map<String, String> meanwhile, int revision) {
      return new Page(
          Stream.of(Basis.ESTIMATED, Basis.CALCULATED, Basis.WEIGHED)
              .map(basis -> field(typed, meanwhile, name(basis), basis.pageWords()))
              .toList(),
          field(
              typed,
              meanwhile,
              "statedTolerance",
              "A stated mass without a tolerance is good to ±"),
          Arrays.stream(Fibre.values())
              .map(fibre -> field(typed, meanwhile, name(fibre), fibre.pageWords()))
              .toList(),
          field(typed, meanwhile, "checkEvery", "Days from one check of a scale to the next"),
          field(
              typed,
              meanwhile,
              "designFactor",
              "How many times stronger than its load a line is to be"),
          String.valueOf(revision));
    }

    /** The settings as they are, by the name of the field. */
    static Map<String, String> fields(Settings settings) {
      Map<String, String> typed = new HashMap<>();
      for (Basis basis : List.of(Basis.ESTIMATED, Basis.CALCULATED, Basis.WEIGHED)) {
        typed.put(name(basis), settings.growthTyped(basis));
      }
      for (Fibre fibre : Fibre.values()) {
        typed.put(name(fibre), settings.airTyped(fibre));
      }
      typed.put("statedTolerance", settings.statedTyped());
      typed.put("checkEvery", String.valueOf(settings.checkEveryDays()));
      typed.put("designFactor", settings.designFactorTyped());
      return typed;
    }

    private static Field field(
        Map<String, String> typed, Map<String, String> meanwhile, String name, String label) {
      String saved = meanwhile.get(name);
      return new Field(
          name,
          label,
          typed.get(name),
          saved == null || saved.equals(typed.get(name)) ? null : "Saved meanwhile: " + saved);
    }

    private static String name(Basis basis) {
      return "growthAllowance." + basis.word();
    }

    private static String name(Fibre fibre) {
      return "air." + fibre.word();
    }
  }

  private final Ledgers ledgers;

  SettingsController(Ledgers ledgers) {
    this.ledgers = ledgers;
  }

  @GetMapping("/settings")
  String settings(Member member, Model model) {
    Ledgers.Kept now = ledgers.settings(member);
    model.addAttribute("page", Page.of(Page.fields(now.settings()), Map.of(), now.revision()));
    return "ledger/settings";
  }

  @PostMapping("/settings")
  Object settle(
      Member member,
      @RequestParam Map<String, String> typed,
      Model model,
      RedirectAttributes flash) {
    try {
      ledgers.settle(member, entry(typed), expected(typed.get("revision")));
      flash.addFlashAttribute("done", "The settings were saved.");
      return SeeOther.page("/settings");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      Ledgers.Kept now = ledgers.settings(member);
      model.addAttribute(
          "page",
          Page.of(
              typed,
              refusal.kind() == Refusal.Kind.STALE ? Page.fields(now.settings()) : Map.of(),
              now.revision()));
      return "ledger/settings";
    }
  }

  private static Ledgers.Entry entry(Map<String, String> typed) {
    Map<String, @Nullable String> air = new HashMap<>();
    for (Fibre fibre : Fibre.values()) {
      air.put(fibre.word(), typed.get(Page.name(fibre)));
    }
    return new Ledgers.Entry(
        new Ledgers.GrowthEntry(
            typed.get(Page.name(Basis.ESTIMATED)),
            typed.get(Page.name(Basis.CALCULATED)),
            typed.get(Page.name(Basis.WEIGHED))),
        typed.get("statedTolerance"),
        typed.get("checkEvery"),
        typed.get("designFactor"),
        air);
  }

  /** The revision named, or one that there never is. */
  private static int expected(@Nullable String revision) {
    return FormFields.revision(revision);
  }
}
