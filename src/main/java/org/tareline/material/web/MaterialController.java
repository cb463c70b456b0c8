package org.tareline.material.web;

import static org.tareline.site.Difference.differ;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.stream.Collectors;
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
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Member;
import org.tareline.material.CutFrom;
import org.tareline.material.Learning;
import org.tareline.material.Material;
import org.tareline.material.MaterialMass;
import org.tareline.material.Materials;
import org.tareline.material.OnHand;
import org.tareline.material.StockEntries;
import org.tareline.material.StockEntry;
import org.tareline.material.StrengthKind;
import org.tareline.material.Swatches;
import org.tareline.site.Codes;
import org.tareline.site.Difference;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;
import org.tareline.weighing.Condition;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Weighings;

/** A material: its page with its swatches, and the form that makes or describes it. */
@Controller
class MaterialController {

  /**
   * A material as typed.
   *
   * @param revision the one that the change started from; null for a new material
   */
  record MaterialForm(
      @Nullable String code,
      @Nullable String name,
      @Nullable String kind,
      @Nullable String nominal,
      @Nullable String nominalWidth,
      @Nullable String tolerance,
      @Nullable String fillPower,
      @Nullable String width,
      @Nullable String strength,
      @Nullable String strengthKind,
      @Nullable String fibre,
      @Nullable String price,
      @Nullable String colour,
      @Nullable String note,
      @Nullable String stock,
      @Nullable String use,
      @Nullable String revision) {

    static MaterialForm empty() {
      return new MaterialForm(
          "", "", "fabric", "", "", "", "", "", "", "", "", "", "", "", "", "", null);
    }

    static MaterialForm of(Material material, @Nullable OnHand onHand) {
      return new MaterialForm(
          material.code(),
          material.name(),
          material.kind().word(),
          material.nominalTyped().orElse(""),
          "",
          material.toleranceTyped().orElse(""),
          material.fillPower().map(power -> power.toPlainString()).orElse(""),
          material.widthTyped().orElse(""),
          material.strength().map(Quantity::text).orElse(""),
          material.strengthKind().map(StrengthKind::word).orElse(""),
          material.fibre().map(Fibre::word).orElse(""),
          material.priceTyped().orElse(""),
          material.colour().orElse(""),
          material.note().orElse(""),
          onHand == null ? "" : onHand.typedOrWords(),
          material.chosen().map(MaterialMass.Use::word).orElse(""),
          String.valueOf(material.revision()));
    }

    MaterialForm from(Material now) {
      return new MaterialForm(
          code,
          name,
          kind,
          nominal,
          nominalWidth,
          tolerance,
          fillPower,
          width,
          strength,
          strengthKind,
          fibre,
          price,
          colour,
          note,
          stock,
          use,
          String.valueOf(now.revision()));
    }

    Materials.Entry entry() {
      // A choice that is always filled in says nothing where there is no strength.
      boolean strong = strength != null && !strength.isBlank();
      return new Materials.Entry(
          code,
          name,
          kind,
          nominal,
          nominalWidth,
          tolerance,
          fillPower,
          width,
          strength,
          strong ? strengthKind : null,
          fibre,
          price,
          colour,
          note,
          stock,
          use);
    }

    /** The revision named, or one that there never is. */
    int expected() {
      return expected(revision);
    }

    static int expected(@Nullable String revision) {
      return FormFields.revision(revision);
    }
  }

  /** A swatch as typed, with all readings in one field. */
  record SwatchForm(
      @Nullable String length,
      @Nullable String width,
      @Nullable String sizeError,
      @Nullable String place,
      @Nullable String scale,
      @Nullable String tolerance,
      @Nullable String readings,
      @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note) {

    static SwatchForm empty(@Nullable String scale) {
      return new SwatchForm("", "", "", "", scale, "", "", "", "", "dry", "", "");
    }

    Swatches.Entry entry() {
      return new Swatches.Entry(
          length,
          width,
          sizeError,
          place,
          new Weighings.Entry(
              scale, tolerance, each(readings), null, tare, count, condition, weighedAt, note));
    }

    /** What cannot be taken apart is handed on whole, to be refused with its reason. */
    private static List<@Nullable String> each(@Nullable String typed) {
      if (typed == null || typed.isBlank()) {
        return List.of();
      }
      try {
        return new ArrayList<>(
            Quantity.readMany(typed, Kind.MASS, Unit.GRAM).stream().map(Quantity::text).toList());
      } catch (UnreadableQuantity unreadable) {
        return new ArrayList<>(List.of(typed));
      }
    }
  }

  /** A line of the record of a stock as typed; its fields are told apart from those of a swatch. */
  record StockForm(
      @Nullable String stockKind,
      @Nullable String stockAmount,
      @Nullable String stockPart,
      @Nullable String stockAt,
      @Nullable String stockNote) {

    static StockForm empty() {
      return new StockForm("cut", "", "", "", "");
    }

    /** The form beside it has a note of its own. */
    static String atField(String field) {
      return switch (field) {
        case "part" -> "stockPart";
        case "at" -> "stockAt";
        case "note" -> "stockNote";
        default -> field;
      };
    }

    StockEntries.Entry entry() {
      StockEntry.Kind kind =
          "counted".equals(stockKind)
              ? StockEntry.Kind.COUNTED
              : "added".equals(stockKind) ? StockEntry.Kind.ADDED : StockEntry.Kind.CUT;
      return new StockEntries.Entry(
          kind, "stockAmount", stockAmount, stockPart, stockAt, stockNote, null);
    }
  }

  /**
   * The page around the form.
   *
   * @param code of the material that is described; null for a new one
   * @param meanwhile what somebody else has saved since, where it differs from what was typed
   */
  record FormPage(
      String title,
      String action,
      @Nullable String code,
      MaterialForm form,
      List<Choice> kinds,
      List<Choice> strengthKinds,
      List<Choice> fibres,
      List<Choice> uses,
      List<Difference> meanwhile) {}

  private final Materials materials;
  private final Swatches swatches;
  private final Learning learning;
  private final StockEntries stock;
  private final CutFrom cutFrom;
  private final Scales scales;
  private final Moments moments;

  MaterialController(
      Materials materials,
      Swatches swatches,
      Learning learning,
      StockEntries stock,
      CutFrom cutFrom,
      Scales scales,
      Moments moments) {
    this.materials = materials;
    this.swatches = swatches;
    this.learning = learning;
    this.stock = stock;
    this.cutFrom = cutFrom;
    this.scales = scales;
    this.moments = moments;
  }

  @GetMapping("/materials/{code}")
  Object material(Member member, @PathVariable String code, Model model) {
    Material material = materials.get(member, code);
    if (!Codes.key(material.code()).equals(Codes.key(code))) {
      return SeeOther.page("/materials/{code}", material.code());
    }
    return page(
        member,
        material,
        SwatchForm.empty(scales.lastUsed(member).map(Scale::code).orElse(null)),
        model);
  }

  private String page(Member member, Material material, SwatchForm form, Model model) {
    MaterialMass known = materials.mass(member, material);
    model.addAttribute(
        "material",
        MaterialPage.of(
            member,
            material,
            known,
            swatches.of(member, material),
            learning.of(member, material, known).orElse(null),
            shelf(member, material),
            moments));
    model.addAttribute("swatch", form);
    if (!model.containsAttribute("stockLine")) {
      model.addAttribute("stockLine", StockForm.empty());
    }
    model.addAttribute(
        "stockKinds",
        List.of(
            new Choice("cut", "cut off"),
            new Choice("added", "bought, or come otherwise"),
            new Choice("counted", "counted: so much there is")));
    model.addAttribute(
        "scales",
        Stream.concat(
                scales.all(member).stream()
                    .map(
                        scale ->
                            new Choice(
                                scale.code(),
                                scale.code()
                                    + " – "
                                    + scale.name()
                                    + ", reads to "
                                    + scale.readabilityTyped())),
                Stream.of(new Choice("", "not recorded: give a tolerance")))
            .toList());
    model.addAttribute(
        "conditions",
        Stream.of(Condition.values())
            .map(condition -> new Choice(condition.word(), condition.word()))
            .toList());
    return "material/material";
  }

  private @Nullable Shelf shelf(Member member, Material material) {
    OnHand onHand = materials.onHand(member, List.of(material)).get(material.id());
    return onHand == null
        ? null
        : Shelf.of(
            onHand,
            material.stockTyped(),
            stock.of(member, material),
            cutFrom.usesOf(member, material),
            member.massStyle(),
            moments);
  }

  @PostMapping("/materials/{code}/stock")
  Object logStock(
      Member member,
      @PathVariable String code,
      @ModelAttribute("stockLine") StockForm form,
      Model model,
      RedirectAttributes flash) {
    return choose(
        member,
        code,
        () -> {
          StockEntries.Outcome outcome = stock.log(member, code, form.entry());
          flash.addFlashAttribute("done", done(outcome));
          return outcome.material();
        },
        model);
  }

  @PostMapping("/materials/{code}/stock/{id}/strike-out")
  Object strikeOutStock(
      Member member,
      @PathVariable String code,
      @PathVariable UUID id,
      @RequestParam @Nullable String reason,
      Model model,
      RedirectAttributes flash) {
    return choose(
        member,
        code,
        () -> {
          StockEntries.Outcome outcome = stock.strikeOut(member, code, id, reason);
          flash.addFlashAttribute(
              "done", "The line was struck out; on hand: " + outcome.onHand().words() + ".");
          return outcome.material();
        },
        model);
  }

  private static String done(StockEntries.Outcome outcome) {
    return Stream.concat(
            Stream.of("Written down; on hand: " + outcome.onHand().words() + "."),
            outcome.notes().stream())
        .collect(Collectors.joining(" "));
  }

  @PostMapping("/materials/{code}/swatches")
  Object log(
      Member member,
      @PathVariable String code,
      @ModelAttribute("swatch") SwatchForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Swatches.Weighed logged = swatches.log(member, code, form.entry());
      flash.addFlashAttribute(
          "done",
          "The swatch says "
              + PerFigure.of(logged.mass(), member.massStyle()).sentence()
              + (logged.counts() ? "." : ", and does not count: see below."));
      return SeeOther.page("/materials/{code}", materials.get(member, code).code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(FormFields::whole));
      return page(member, materials.get(member, code), form, model);
    }
  }

  @PostMapping("/materials/{code}/take-learned")
  Object takeLearned(
      Member member,
      @PathVariable String code,
      @RequestParam @Nullable String revision,
      Model model,
      RedirectAttributes flash) {
    return choose(
        member,
        code,
        () -> {
          Material material = learning.take(member, code, MaterialForm.expected(revision));
          flash.addFlashAttribute("done", "Cut lists take what its parts say from now on.");
          return material;
        },
        model);
  }

  @PostMapping("/materials/{code}/take-back-learned")
  Object takeBackLearned(
      Member member,
      @PathVariable String code,
      @RequestParam @Nullable String revision,
      Model model,
      RedirectAttributes flash) {
    return choose(
        member,
        code,
        () -> {
          Material material = learning.takeBack(member, code, MaterialForm.expected(revision));
          flash.addFlashAttribute("done", "What its parts say is not used any more.");
          return material;
        },
        model);
  }

  private Object choose(Member member, String code, Supplier<Material> choice, Model model) {
    try {
      Material material = choice.get();
      return SeeOther.page("/materials/{code}", material.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(StockForm::atField));
      return page(
          member,
          materials.get(member, code),
          SwatchForm.empty(scales.lastUsed(member).map(Scale::code).orElse(null)),
          model);
    }
  }

  @GetMapping("/materials/new")
  String newMaterial(Model model) {
    return form(model, null, MaterialForm.empty(), List.of());
  }

  @PostMapping("/materials/new")
  Object add(
      Member member,
      @ModelAttribute("form") MaterialForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Material material = materials.add(member, form.entry());
      flash.addFlashAttribute("done", material.code() + " is in the ledger.");
      return SeeOther.page("/materials/{code}", material.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return form(model, null, form, List.of());
    }
  }

  @GetMapping("/materials/{code}/edit")
  String edit(Member member, @PathVariable String code, Model model) {
    Material material = materials.get(member, code);
    return form(model, material.code(), form(member, material), List.of());
  }

  @PostMapping("/materials/{code}/edit")
  Object change(
      Member member,
      @PathVariable String code,
      @ModelAttribute("form") MaterialForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Material material = materials.change(member, code, form.entry(), form.expected());
      flash.addFlashAttribute("done", material.code() + " was saved.");
      return SeeOther.page("/materials/{code}", material.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      Material now = materials.get(member, code);
      return refusal.kind() == Refusal.Kind.STALE
          ? form(model, now.code(), form.from(now), differences(form(member, now), form))
          : form(model, now.code(), form, List.of());
    }
  }

  private MaterialForm form(Member member, Material material) {
    return MaterialForm.of(
        material, materials.onHand(member, List.of(material)).get(material.id()));
  }

  private static List<Difference> differences(MaterialForm saved, MaterialForm typed) {
    List<Difference> differences = new ArrayList<>();
    differ(differences, "Code", saved.code(), typed.code());
    differ(differences, "Name", saved.name(), typed.name());
    differ(differences, "Kind", saved.kind(), typed.kind());
    differ(differences, "Printed mass", saved.nominal(), typed.nominal());
    differ(differences, "Width it is for", saved.nominalWidth(), typed.nominalWidth());
    differ(differences, "Tolerance", saved.tolerance(), typed.tolerance());
    differ(differences, "Fill power", saved.fillPower(), typed.fillPower());
    differ(differences, "Usable width", saved.width(), typed.width());
    differ(differences, "Strength", saved.strength(), typed.strength());
    differ(differences, "Strength is", saved.strengthKind(), typed.entry().strengthKind());
    differ(differences, "Fibre", saved.fibre(), typed.fibre());
    differ(differences, "Price", saved.price(), typed.price());
    differ(differences, "Colour", saved.colour(), typed.colour());
    differ(differences, "On hand", saved.stock(), typed.stock());
    differ(differences, "Mass that is used", saved.use(), typed.use());
    differ(differences, "Note", saved.note(), typed.note());
    return differences;
  }

  private static String form(
      Model model, @Nullable String code, MaterialForm form, List<Difference> meanwhile) {
    model.addAttribute(
        "page",
        new FormPage(
            code == null ? "New material" : "Edit " + code,
            code == null ? "Put it into the ledger" : "Save",
            code,
            form,
            MaterialsController.kinds(),
            Stream.of(StrengthKind.values())
                .map(kind -> new Choice(kind.word(), kind.pageWords()))
                .toList(),
            Stream.concat(
                    Stream.of(new Choice("", "not said")),
                    Stream.of(Fibre.values())
                        .map(fibre -> new Choice(fibre.word(), fibre.pageWords())))
                .toList(),
            Stream.concat(
                    Stream.of(
                        new Choice("", "as weighed, once three swatches agree"),
                        new Choice("nominal", "as printed"),
                        new Choice("weighed", "as weighed")),
                    MaterialMass.Use.LEARNED.word().equals(form.use())
                        ? Stream.of(new Choice("learned", "as learned from its parts"))
                        : Stream.of())
                .toList(),
            meanwhile));
    return "material/form";
  }
}
