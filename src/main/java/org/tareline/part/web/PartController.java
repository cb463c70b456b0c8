package org.tareline.part.web;

import static org.tareline.site.Difference.differ;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Member;
import org.tareline.material.StrengthKind;
import org.tareline.part.Comfort;
import org.tareline.part.LifeEvent;
import org.tareline.part.LifeEvents;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.part.PartVariants;
import org.tareline.part.Parts;
import org.tareline.part.Strength;
import org.tareline.part.WhereUsed;
import org.tareline.site.Codes;
import org.tareline.site.Difference;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** A part: its page, and the form that makes or describes it. */
@Controller
class PartController {

  /**
   * A part as typed.
   *
   * @param revision the one that the change started from; null for a new part
   */
  record PartForm(
      @Nullable String code,
      @Nullable String name,
      @Nullable String system,
      @Nullable String owned,
      @Nullable StatedForm stated,
      @Nullable String fibre,
      @Nullable String strength,
      @Nullable String strengthKind,
      Comfort.@Nullable Entry comfortTemperature,
      @Nullable String packedVolume,
      @Nullable String packedLength,
      @Nullable String note,
      @Nullable String revision) {

    static PartForm empty() {
      return new PartForm(
          "", "", "hang", "1", new StatedForm("", ""), "", "", "", NO_COMFORT, "", "", "", null);
    }

    static PartForm of(Part part) {
      return new PartForm(
          part.code(),
          part.name(),
          part.system().word(),
          String.valueOf(part.owned()),
          new StatedForm(part.statedTyped().orElse(""), part.statedToleranceTyped().orElse("")),
          part.fibre().map(Fibre::word).orElse(""),
          part.strength().map(strength -> strength.force().text()).orElse(""),
          part.strength()
              .map(Strength::kind)
              // The list has no empty choice.
              .orElse(StrengthKind.MINIMUM_BREAKING)
              .word(),
          part.comfort().map(Comfort::entry).orElse(NO_COMFORT),
          Objects.requireNonNullElse(part.packed().volumeTyped(), ""),
          Objects.requireNonNullElse(part.packed().lengthTyped(), ""),
          part.note().orElse(""),
          String.valueOf(part.revision()));
    }

    PartForm from(Part now) {
      return new PartForm(
          code,
          name,
          system,
          owned,
          stated,
          fibre,
          strength,
          strengthKind,
          comfortTemperature,
          packedVolume,
          packedLength,
          note,
          String.valueOf(now.revision()));
    }

    Parts.Entry entry() {
      return new Parts.Entry(
          code,
          name,
          system,
          owned,
          new Parts.StatedEntry(statedMass(), statedTolerance()),
          fibre,
          // The list always names a kind; of a strength that is not known it means nothing.
          strength == null || strength.isBlank()
              ? null
              : new Parts.StrengthEntry(strength, strengthKind),
          comfort(),
          new PackedSize.Entry(packedVolume, packedLength),
          note,
          null);
    }

    public @Nullable String statedMass() {
      return stated == null ? null : stated.mass();
    }

    public @Nullable String statedTolerance() {
      return stated == null ? null : stated.tolerance();
    }

    /** The list always names a kind; of a temperature that is not known it means nothing. */
    public Comfort.Entry comfort() {
      Comfort.Entry typed = comfortTemperature == null ? NO_COMFORT : comfortTemperature;
      String temperature = typed.temperature();
      return temperature == null || temperature.isBlank()
          ? new Comfort.Entry(null, null, typed.insulates())
          : typed;
    }

    /** The revision named, or one that there never is. */
    int expected() {
      return FormFields.revision(revision);
    }
  }

  private static final List<Choice> SIDES =
      List.of(
          new Choice("", "not said, or nothing"),
          new Choice(Comfort.Side.ABOVE.word(), "above the sleeper: a top quilt, a bag"),
          new Choice(Comfort.Side.BELOW.word(), "below the sleeper: an underquilt, a pad"),
          new Choice(Comfort.Side.WORN.word(), "worn"));

  private static final Comfort.Entry NO_COMFORT =
      new Comfort.Entry("", Comfort.Kind.MAKERS_OWN.word(), "");

  /** What happened to a part, as typed. */
  record EventForm(
      @Nullable String kind, @Nullable String date, @Nullable String count, @Nullable String note) {

    static EventForm empty() {
      return new EventForm("", "", "", "");
    }

    LifeEvents.Entry entry() {
      return new LifeEvents.Entry(kind, date, count, note);
    }
  }

  record StatedForm(@Nullable String mass, @Nullable String tolerance) {}

  /**
   * The page around the form.
   *
   * @param code of the part that is described; null for a new one
   * @param meanwhile what somebody else has saved since, where it differs from what was typed
   */
  record FormPage(
      String title,
      String action,
      @Nullable String code,
      PartForm form,
      List<Choice> systems,
      List<Choice> fibres,
      List<Choice> strengthKinds,
      List<Choice> comfortKinds,
      List<Choice> sides,
      List<Difference> meanwhile) {}

  private final Parts parts;
  private final PartVariants variants;
  private final LifeEvents events;
  private final List<WhereUsed> users;
  private final Moments moments;

  PartController(
      Parts parts,
      PartVariants variants,
      LifeEvents events,
      ObjectProvider<WhereUsed> users,
      Moments moments) {
    this.parts = parts;
    this.variants = variants;
    this.events = events;
    this.users = users.orderedStream().toList();
    this.moments = moments;
  }

  @GetMapping("/parts/{code}")
  Object part(Member member, @PathVariable String code, Model model) {
    Part part = parts.get(member, code);
    if (!Codes.key(part.code()).equals(Codes.key(code))) {
      return SeeOther.page("/parts/{code}", part.code());
    }
    return page(member, part, EventForm.empty(), model);
  }

  private String page(Member member, Part part, EventForm event, Model model) {
    List<WhereUsed.Use> uses =
        users.stream().flatMap(user -> user.usesOf(member, part.id()).stream()).toList();
    model.addAttribute(
        "part", PartPage.of(member, part, parts.evidence(member, part), uses, moments));
    model.addAttribute("kin", variants.kin(member, part));
    model.addAttribute("event", event);
    model.addAttribute("kinds", kinds());
    return "part/part";
  }

  private static List<Choice> kinds() {
    return Stream.concat(
            Stream.of(new Choice("", "choose")),
            Arrays.stream(LifeEvent.Kind.values())
                .map(kind -> new Choice(kind.word(), kind.word())))
        .toList();
  }

  @PostMapping("/parts/{code}/events")
  Object happened(
      Member member,
      @PathVariable String code,
      @ModelAttribute("event") EventForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      LifeEvents.Outcome outcome = events.log(member, code, form.entry());
      flash.addFlashAttribute("done", done(outcome, "Noted: "));
      return SeeOther.page("/parts/{code}", outcome.part().code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, parts.get(member, code), form, model);
    }
  }

  @PostMapping("/parts/{code}/events/{id}/strike-out")
  Object strikeOut(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      @RequestParam(required = false) @Nullable String reason,
      Model model,
      RedirectAttributes flash) {
    try {
      LifeEvents.Outcome outcome = events.strikeOut(member, code, uuid(id), reason);
      flash.addFlashAttribute("done", done(outcome, "Struck out: "));
      return SeeOther.page("/parts/{code}", outcome.part().code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, parts.get(member, code), EventForm.empty(), model);
    }
  }

  private static String done(LifeEvents.Outcome outcome, String what) {
    return what
        + outcome.logged().event().kind().word()
        + ". "
        + outcome.part().owned()
        + " owned, "
        + (outcome.part().owned() - outcome.lent())
        + " at hand.";
  }

  private static UUID uuid(String id) {
    try {
      return UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("life event");
    }
  }

  @GetMapping("/parts/new")
  String newPart(Model model) {
    return form(model, null, PartForm.empty(), List.of());
  }

  @PostMapping("/parts/new")
  Object add(
      Member member, @ModelAttribute("form") PartForm form, Model model, RedirectAttributes flash) {
    try {
      Part part = parts.add(member, form.entry());
      flash.addFlashAttribute("done", part.code() + " is in the ledger.");
      return SeeOther.page("/parts/{code}", part.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return form(model, null, form, List.of());
    }
  }

  @GetMapping("/parts/{code}/edit")
  String edit(Member member, @PathVariable String code, Model model) {
    Part part = parts.get(member, code);
    return form(model, part.code(), PartForm.of(part), List.of());
  }

  @PostMapping("/parts/{code}/edit")
  Object change(
      Member member,
      @PathVariable String code,
      @ModelAttribute("form") PartForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Part part = parts.change(member, code, form.entry(), form.expected());
      flash.addFlashAttribute("done", part.code() + " was saved.");
      return SeeOther.page("/parts/{code}", part.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      Part now = parts.get(member, code);
      return refusal.kind() == Refusal.Kind.STALE
          ? form(model, now.code(), form.from(now), differences(PartForm.of(now), form))
          : form(model, now.code(), form, List.of());
    }
  }

  private static List<Choice> fibres() {
    return Stream.concat(
            Stream.of(new Choice("", "not said")),
            Arrays.stream(Fibre.values()).map(fibre -> new Choice(fibre.word(), fibre.pageWords())))
        .toList();
  }

  private static List<Difference> differences(PartForm saved, PartForm typed) {
    List<Difference> differences = new ArrayList<>();
    differ(differences, "Code", saved.code(), typed.code());
    differ(differences, "Name", saved.name(), typed.name());
    differ(differences, "For", saved.system(), typed.system());
    differ(differences, "Owned", saved.owned(), typed.owned());
    differ(differences, "Stated mass", saved.statedMass(), typed.statedMass());
    differ(differences, "Tolerance", saved.statedTolerance(), typed.statedTolerance());
    differ(differences, "Fibre", saved.fibre(), typed.fibre());
    differ(differences, "Strength", saved.strength(), typed.strength());
    differ(differences, "What that is", saved.strengthKind(), typed.strengthKind());
    differ(
        differences,
        "Comfort temperature",
        saved.comfort().temperature(),
        typed.comfort().temperature());
    differ(differences, "By what", saved.comfort().kind(), typed.comfort().kind());
    differ(differences, "Insulates", saved.comfort().insulates(), typed.comfort().insulates());
    differ(differences, "Packed volume", saved.packedVolume(), typed.packedVolume());
    differ(differences, "Packed length", saved.packedLength(), typed.packedLength());
    differ(differences, "Note", saved.note(), typed.note());
    return differences;
  }

  private static String form(
      Model model, @Nullable String code, PartForm form, List<Difference> meanwhile) {
    model.addAttribute(
        "page",
        new FormPage(
            code == null ? "New part" : "Edit " + code,
            code == null ? "Put it into the ledger" : "Save",
            code,
            form,
            PartsController.systems(),
            fibres(),
            Stream.of(StrengthKind.values())
                .map(kind -> new Choice(kind.word(), kind.pageWords()))
                .toList(),
            Stream.of(Comfort.Kind.values())
                .map(kind -> new Choice(kind.word(), kind.pageWords()))
                .toList(),
            SIDES,
            meanwhile));
    return "part/form";
  }
}
