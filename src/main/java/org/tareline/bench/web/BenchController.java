package org.tareline.bench.web;

import java.io.Serializable;
import java.time.Clock;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.bench.Bench;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.ledger.Member;
import org.tareline.material.Material;
import org.tareline.material.Swatches;
import org.tareline.part.GearSystem;
import org.tareline.part.LineWeighings;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rig.Moved;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rollup.Scope;
import org.tareline.site.Figure;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.Refusal.Fault;
import org.tareline.site.SeeOther;
import org.tareline.units.Kind;
import org.tareline.units.MassStyle;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;
import org.tareline.weighing.Condition;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Reading;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * The home page: the next weighing, what the last one moved, today's, and the parts that wait for
 * the scale.
 */
@Controller
class BenchController {

  private static final Set<String> FIELDS_OF_MORE =
      Set.of(
          "before",
          "tare",
          "count",
          "condition",
          "weighedAt",
          "tolerance",
          "note",
          "scope",
          "piece");

  private static final String NOT_RECORDED = "";
  private static final NewScale FIRST_SCALE = new NewScale("BENCH", "Bench scale", null, null);
  private static final int MOST_OF_TODAY = 15;
  private static final int MOST_WAITING = 24;
  private static final int MOST_MOVED = 8;
  private static final int MOST_SUGGESTIONS = 8;
  private static final int MOST_RIGS_SUGGESTED = 4;

  /** What was typed, as typed. */
  record EntryForm(
      @Nullable String part,
      @Nullable String readings,
      @Nullable String scale,
      @Nullable String tolerance,
      @Nullable String before,
      @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      @Nullable String scope,
      @Nullable String piece,
      @Nullable String sure,
      @Nullable NewPart newPart,
      @Nullable NewScale newScale) {

    static EntryForm of(@Nullable String thing, @Nullable String scope, @Nullable String scale) {
      return new EntryForm(
          thing, null, scale, null, null, null, null, "dry", null, null, scope, null, null, null,
          null);
    }

    /** Whether anything but part, reading and scale was said. */
    public boolean more() {
      return said(before)
          || said(scope)
          || said(piece)
          || said(tare)
          || said(count)
          || said(note)
          || said(weighedAt)
          || said(tolerance)
          || (condition != null && !condition.equals("dry"));
    }
  }

  record NewPart(@Nullable String code, @Nullable String name, @Nullable String system) {}

  record NewScale(
      @Nullable String code,
      @Nullable String name,
      @Nullable String readability,
      @Nullable String capacity) {}

  /**
   * What became of an entry, ready to be shown; kept in the session from the post to the page.
   *
   * @param things what was weighed, to link to; kind is in the plural, as in the address
   * @param sentences what it means, beyond the mass itself
   */
  record Answer(
      List<Thing> things,
      String mass,
      List<String> sentences,
      List<Line> moved,
      int movedMore,
      List<String> notes,
      boolean struckOut)
      implements Serializable {

    record Thing(String kind, String code, String name, int quantity) implements Serializable {

      Thing of(int many) {
        return new Thing(kind, code, name, many);
      }
    }

    record Line(String rig, String name, String before, String after, String change)
        implements Serializable {}
  }

  /** A weighing in the list of today's. */
  record Entered(
      String id,
      String time,
      List<Answer.Thing> things,
      String readings,
      String scale,
      String aside,
      Figure figure,
      @Nullable String struckOut) {}

  record Waiting(String code, String name, String aside) {}

  record Suggestion(String code, String name, String aside) {}

  /** A scale to choose; its unit is shown beside the reading. */
  record ScaleChoice(String code, String words, String unit) {}

  private final Bench bench;
  private final Parts parts;
  private final Rigs rigs;
  private final Scopes scopes;
  private final Scales scales;
  private final Weighings weighings;
  private final Moments moments;
  private final Swatches swatches;
  private final LineWeighings lines;
  private final Clock clock;

  BenchController(
      Bench bench,
      Parts parts,
      Rigs rigs,
      Scopes scopes,
      Scales scales,
      Weighings weighings,
      Moments moments,
      Swatches swatches,
      LineWeighings lines,
      Clock clock) {
    this.bench = bench;
    this.parts = parts;
    this.rigs = rigs;
    this.scopes = scopes;
    this.scales = scales;
    this.weighings = weighings;
    this.moments = moments;
    this.swatches = swatches;
    this.lines = lines;
    this.clock = clock;
  }

  /**
   * The bench; a part or a rig, what is counted of it and the scale may be filled in by the
   * address.
   */
  @GetMapping("/")
  String bench(
      Member member,
      @RequestParam(required = false) @Nullable String part,
      @RequestParam(required = false) @Nullable String rig,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String scale,
      Model model) {
    String on =
        scale != null && scales.find(member, scale).isPresent()
            ? scale
            : scales.lastUsed(member).map(Scale::code).orElse(null);
    String counted = rig == null ? null : said(scope) ? scope : Scope.COMPLETE.code();
    return page(member, model, EntryForm.of(rig == null ? part : rig, counted, on), List.of());
  }

  @PostMapping("/weighings")
  Object log(Member member, @ModelAttribute EntryForm form, Model model, RedirectAttributes flash) {
    try {
      Bench.Outcome outcome = bench.log(member, entry(form), true);
      flash.addFlashAttribute("answer", answer(outcome, member.massStyle(), false));
      return SeeOther.page("/");
    } catch (Refusal refusal) {
      // The page has one field for all readings, and one for those before.
      return page(member, model, form, scaleOnce(refusal.faults(FormFields::whole)));
    }
  }

  @PostMapping("/weighings/{id}/strike-out")
  Object strikeOut(
      Member member,
      @PathVariable String id,
      @RequestParam(required = false) @Nullable String reason,
      @RequestParam(required = false) @Nullable String from,
      RedirectAttributes flash) {
    UUID uuid;
    try {
      uuid = UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("weighing");
    }
    Bench.Outcome outcome = bench.strikeOut(member, uuid, reason);
    Bench.Whole whole = outcome.whole();
    if ("part".equals(from) && !outcome.things().isEmpty()) {
      flash.addFlashAttribute("done", "The weighing was struck out: " + reason + ".");
      return SeeOther.page("/parts/{code}", outcome.things().get(0).part().code());
    }
    if ("cut-list".equals(from) && !outcome.things().isEmpty()) {
      flash.addFlashAttribute("done", "The weighing was struck out: " + reason + ".");
      return SeeOther.page("/parts/{code}/cut-list", outcome.things().get(0).part().code());
    }
    if ("rig".equals(from) && whole != null) {
      flash.addFlashAttribute("done", "The weighing was struck out: " + reason + ".");
      return SeeOther.page("/rigs/{code}", whole.rig().code());
    }
    Material material = outcome.material();
    if ("material".equals(from) && material != null) {
      flash.addFlashAttribute("done", "The swatch was struck out: " + reason + ".");
      return SeeOther.page("/materials/{code}", material.code());
    }
    flash.addFlashAttribute("answer", answer(outcome, member.massStyle(), true));
    return SeeOther.page("/");
  }

  /** What may be on the pan: parts first, then rigs. */
  @GetMapping("/weighings/suggestions")
  @ResponseBody
  List<Suggestion> suggestions(Member member, @RequestParam(defaultValue = "") String text) {
    List<Suggestion> found = new ArrayList<>();
    List<Part> like = parts.search(member, text, MOST_SUGGESTIONS);
    Map<Long, PartMass> masses = parts.masses(member, like);
    like.forEach(
        part ->
            found.add(
                new Suggestion(
                    part.code(),
                    part.name(),
                    masses.getOrDefault(part.id(), PartMass.UNKNOWN).words(member.massStyle()))));
    rigs.search(member, text, MOST_RIGS_SUGGESTED)
        .forEach(rig -> found.add(new Suggestion(rig.code(), rig.name(), "rig")));
    return found;
  }

  private static Bench.Entry entry(EntryForm form) {
    NewPart newPart = form.newPart();
    NewScale newScale = form.newScale();
    return new Bench.Entry(
        form.part(),
        true,
        null,
        form.scope(),
        null,
        form.piece(),
        new Weighings.Entry(
            form.scale(),
            form.tolerance(),
            readings(form.readings()),
            readings(form.before()),
            form.tare(),
            form.count(),
            form.condition(),
            form.weighedAt(),
            form.note()),
        newPart != null && said(newPart.name())
            ? new Parts.Entry(
                newPart.code(), newPart.name(), newPart.system(), null, null, null, null)
            : null,
        newScale != null && said(newScale.code()) && !onlySuggested(newScale, form.tolerance())
            ? new Scales.Entry(
                newScale.code(),
                newScale.name(),
                newScale.readability(),
                newScale.capacity(),
                null,
                null)
            : null,
        form.sure() != null);
  }

  /**
   * Whether the new scale is but what the page had filled in, beside a tolerance from a notebook.
   */
  private static boolean onlySuggested(NewScale scale, @Nullable String tolerance) {
    return said(tolerance) && !said(scale.readability()) && !said(scale.capacity());
  }

  /**
   * Several readings stand in one field; what cannot be taken apart is handed on whole, to be
   * refused with its reason.
   */
  private static List<@Nullable String> readings(@Nullable String typed) {
    if (!said(typed)) {
      return List.of();
    }
    try {
      return new ArrayList<>(
          Quantity.readMany(String.valueOf(typed), Kind.MASS, Unit.GRAM).stream()
              .map(Quantity::text)
              .toList());
    } catch (UnreadableQuantity unreadable) {
      return new ArrayList<>(List.of(String.valueOf(typed)));
    }
  }

  /** A new scale that is refused is the scale that is missing, and is said once. */
  private static List<Fault> scaleOnce(List<Fault> faults) {
    boolean refused = faults.stream().anyMatch(fault -> fault.field().startsWith("newScale"));
    return faults.stream().filter(fault -> !refused || !fault.field().equals("scale")).toList();
  }

  private String page(Member member, Model model, EntryForm form, List<Fault> faults) {
    List<Scale> all = scales.all(member);
    boolean unknownPart =
        faults.stream().anyMatch(fault -> fault.field().startsWith("newPart"))
            || faults.stream()
                .anyMatch(
                    fault ->
                        fault.field().equals("part")
                            && fault.message().startsWith("There is no part"));
    boolean askedAboutUnits =
        faults.stream().anyMatch(fault -> fault.message().startsWith("That looks like"));
    model.addAttribute("form", form);
    model.addAttribute("faults", faults);
    model.addAttribute("newPart", form.newPart() == null ? suggested(form.part()) : form.newPart());
    model.addAttribute(
        "newPartOpen", unknownPart || (form.newPart() != null && said(form.newPart().name())));
    model.addAttribute(
        "newScale",
        form.newScale() != null
            ? form.newScale()
            : all.isEmpty() ? FIRST_SCALE : new NewScale(null, null, null, null));
    model.addAttribute("firstScale", all.isEmpty());
    model.addAttribute(
        "newScaleOpen", all.isEmpty() || (form.newScale() != null && said(form.newScale().code())));
    model.addAttribute("askedAboutUnits", askedAboutUnits);
    model.addAttribute(
        "moreOpen",
        form.more() || faults.stream().anyMatch(fault -> FIELDS_OF_MORE.contains(fault.field())));
    // Where a name is all that is missing, it is typed next.
    model.addAttribute("typedFirst", unknownPart && faults.size() == 1 ? "newPart.name" : null);
    model.addAttribute("readingFirst", said(form.part()) && faults.isEmpty());
    model.addAttribute("scales", choices(all));
    Optional<Scale> chosen =
        all.stream().filter(scale -> scale.code().equals(form.scale())).findFirst();
    model.addAttribute("unit", chosen.map(Scale::unit).orElse(Unit.GRAM).symbol());
    model.addAttribute(
        "checkDue",
        chosen
            .flatMap(scale -> scales.overdue(member, scale))
            .map(due -> due.words(moments))
            .orElse(null));
    model.addAttribute(
        "conditions",
        List.of(
            new Choice(Condition.DRY.word(), "dry"),
            new Choice(Condition.AIRED.word(), "aired for a day"),
            new Choice(Condition.DAMP.word(), "damp"),
            new Choice(Condition.WET.word(), "wet")));
    List<Choice> counted = new ArrayList<>();
    counted.add(new Choice("", "\u2013"));
    scopes.all(member).forEach(scope -> counted.add(new Choice(scope.code(), scope.name())));
    model.addAttribute("scopes", counted);
    model.addAttribute(
        "systems",
        java.util.Arrays.stream(GearSystem.values())
            .map(system -> new Choice(system.word(), system.pageWords()))
            .toList());
    model.addAttribute("reasons", Weighings.REASONS_TO_STRIKE_OUT);
    model.addAttribute("today", today(member));
    model.addAttribute("waiting", waiting(member));
    return "bench/bench";
  }

  private static NewPart suggested(@Nullable String typed) {
    return new NewPart(typed, null, GearSystem.HANG.word());
  }

  private static List<ScaleChoice> choices(List<Scale> scales) {
    List<ScaleChoice> choices = new ArrayList<>();
    scales.forEach(
        scale ->
            choices.add(
                new ScaleChoice(
                    scale.code(),
                    scale.code() + " – " + scale.name() + ", reads to " + scale.readabilityTyped(),
                    scale.unit().symbol())));
    choices.add(
        new ScaleChoice(
            NOT_RECORDED, "not recorded (an old note): give a tolerance", Unit.GRAM.symbol()));
    return choices;
  }

  private List<Entered> today(Member member) {
    Instant midnight =
        ZonedDateTime.now(clock).toLocalDate().atStartOfDay(clock.getZone()).toInstant();
    List<Weighings.Logged> logged = weighings.enteredSince(member, midnight, MOST_OF_TODAY);
    Map<UUID, List<Placed>> onPan = new LinkedHashMap<>();
    logged.forEach(
        entry ->
            onPan
                .computeIfAbsent(entry.weighing().uuid(), any -> new ArrayList<>())
                .add(entry.placed()));
    Map<Long, Part> ofParts =
        parts.byIds(member, ids(logged, Subject.PART)).stream()
            .collect(Collectors.toMap(Part::id, part -> part));
    Map<Subject, Answer.Thing> named = new HashMap<>();
    ofParts.forEach((id, part) -> named.put(Subject.part(id), thing(part)));
    rigs.byIds(member, ids(logged, Subject.RIG))
        .forEach(rig -> named.put(Subject.rig(rig.id()), thing(rig)));
    swatches
        .materialsOf(member, ids(logged, Subject.SWATCH))
        .forEach((id, material) -> named.put(Subject.swatch(id), thing(material)));
    lines
        .partsOf(member, ids(logged, Subject.CUT_LINE))
        .forEach((id, part) -> named.put(new Subject(Subject.CUT_LINE, id), thing(part)));
    logged = firstOfEach(logged);
    DateTimeFormatter clockTime =
        DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).withZone(clock.getZone());
    List<Estimate> estimates =
        logged.stream()
            .map(
                entry -> {
                  Part part = entry.together() ? null : ofParts.get(entry.subject().id());
                  return part == null || !entry.subject().kind().equals(Subject.PART)
                      ? entry.weighing().estimate()
                      : parts.weighed(member, part, entry.weighing());
                })
            .toList();
    int decimals = Figure.decimals(estimates, member.massStyle());
    List<Entered> entered = new ArrayList<>();
    for (int i = 0; i < logged.size(); i++) {
      Weighing weighing = logged.get(i).weighing();
      entered.add(
          new Entered(
              weighing.uuid().toString(),
              clockTime.format(weighing.enteredAt()),
              things(onPan.getOrDefault(weighing.uuid(), List.of()), named),
              weighing.readings().stream().map(Reading::typed).collect(Collectors.joining("; ")),
              weighing.scale().map(Scale::code).orElse("not recorded"),
              aside(logged.get(i)),
              Figure.of(estimates.get(i), member.massStyle(), decimals),
              logged.get(i).voidReason()));
    }
    return entered;
  }

  private static List<Answer.Thing> things(List<Placed> onPan, Map<Subject, Answer.Thing> named) {
    List<Answer.Thing> things = new ArrayList<>();
    for (Placed placed : onPan) {
      Answer.Thing thing = named.get(placed.subject());
      if (thing != null) {
        things.add(thing.of(onPan.size() == 1 ? 1 : placed.quantity()));
      }
    }
    return things;
  }

  /** A weighing of several things stands in as many rows; the page shows it once. */
  private static List<Weighings.Logged> firstOfEach(List<Weighings.Logged> logged) {
    Map<UUID, Weighings.Logged> first = new LinkedHashMap<>();
    logged.forEach(entry -> first.putIfAbsent(entry.weighing().uuid(), entry));
    return List.copyOf(first.values());
  }

  private static List<Long> ids(List<Weighings.Logged> logged, String kind) {
    return logged.stream()
        .map(Weighings.Logged::subject)
        .filter(subject -> subject.kind().equals(kind))
        .map(Subject::id)
        .distinct()
        .toList();
  }

  private static Answer.Thing thing(Part part) {
    return new Answer.Thing("parts", part.code(), part.name(), 1);
  }

  private static Answer.Thing thing(Rig rig) {
    return new Answer.Thing("rigs", rig.code(), rig.name(), 1);
  }

  private static Answer.Thing thing(Material material) {
    return new Answer.Thing("materials", material.code(), material.name(), 1);
  }

  private static String aside(Weighings.Logged logged) {
    Weighing weighing = logged.weighing();
    List<String> said = new ArrayList<>();
    Placed placed = logged.placed();
    if (placed.subject().kind().equals(Subject.SWATCH)) {
      said.add("swatch");
    }
    if (placed.subject().kind().equals(Subject.CUT_LINE)) {
      said.add("cut for it, not sewn yet");
    }
    if (placed.scope() != null) {
      said.add(placed.scope());
    }
    if (placed.piece() != null) {
      said.add("piece " + placed.piece());
    }
    if (!weighing.before().isEmpty()) {
      said.add(
          "before it "
              + weighing.before().stream().map(Reading::typed).collect(Collectors.joining("; ")));
    }
    weighing.tareTyped().ifPresent(tare -> said.add("tare " + tare));
    if (weighing.pieceCount() > 1) {
      said.add(weighing.pieceCount() + " together");
    }
    if (weighing.condition() != Condition.DRY) {
      said.add(weighing.condition().word());
    }
    weighing.note().ifPresent(said::add);
    return String.join(", ", said);
  }

  private List<Waiting> waiting(Member member) {
    List<Part> never = parts.waiting(member, MOST_WAITING);
    Map<Long, PartMass> masses = parts.masses(member, never);
    return never.stream()
        .map(
            part -> {
              PartMass mass = masses.get(part.id());
              return new Waiting(
                  part.code(),
                  part.name(),
                  mass == null || mass.estimate() == null
                      ? "nothing known yet"
                      : "stated " + Figure.of(mass.estimate(), member.massStyle()).sentence());
            })
        .toList();
  }

  private static Answer answer(Bench.Outcome outcome, MassStyle style, boolean struckOut) {
    Bench.Whole whole = outcome.whole();
    Material material = outcome.material();
    List<Answer.Thing> things =
        material != null
            ? List.of(thing(material))
            : whole == null
                ? outcome.things().stream()
                    .map(
                        each ->
                            thing(each.part())
                                .of(outcome.things().size() == 1 ? 1 : each.placed().quantity()))
                    .toList()
                : List.of(thing(whole.rig()));
    Estimate now =
        !struckOut || outcome.things().size() != 1
            ? outcome.estimate()
            : outcome.things().get(0).after().estimate();
    return new Answer(
        things,
        now == null ? "not weighed" : Figure.of(now, style).sentence(),
        struckOut ? List.of() : sentences(outcome, style),
        outcome.moved().stream().limit(MOST_MOVED).map(moved -> line(moved, style)).toList(),
        Math.max(0, outcome.moved().size() - MOST_MOVED),
        List.copyOf(outcome.notes()),
        struckOut);
  }

  private static List<String> sentences(Bench.Outcome outcome, MassStyle style) {
    List<String> said = new ArrayList<>();
    Weighing weighing = outcome.weighing();
    Bench.Whole whole = outcome.whole();
    Estimate residual = outcome.residual();
    if (whole != null && residual != null) {
      String parts = Figure.of(whole.parts().estimate(), style).sentence();
      if (whole.parts().atLeast()) {
        said.add(
            "Its parts come to at least "
                + parts
                + ": of some nothing is known yet, so the two cannot be compared.");
      } else {
        boolean agrees = Verdict.of(residual) == Verdict.UNDECIDED;
        said.add(
            "Its parts come to "
                + parts
                + "; whole minus parts is "
                + Figure.of(residual, style).sentence()
                + (agrees ? ": they agree." : ": they do not agree."));
      }
      return said;
    }
    for (Bench.Weighed thing : outcome.things()) {
      Estimate change = thing.change(weighing);
      String of = outcome.things().size() == 1 ? "" : thing.part().code() + ": ";
      if (change != null) {
        said.add(of + sinceBefore(change, style));
      } else if (outcome.things().size() > 1 && thing.counts(weighing)) {
        Estimate left = thing.after().estimate();
        said.add(of + (left == null ? "not known" : Figure.of(left, style).sentence()));
      }
    }
    return said;
  }

  private static Answer.Line line(Moved moved, MassStyle style) {
    return new Answer.Line(
        moved.code(),
        moved.name(),
        moved.before() == null ? "" : Figure.of(moved.before(), style).sentence(),
        (moved.atLeast() ? "at least " : "") + Figure.of(moved.after(), style).sentence(),
        changed(moved.change(), style));
  }

  private static String sinceBefore(Estimate change, MassStyle style) {
    String words = changed(change, style);
    return words + (words.startsWith("no change") ? " since before" : " than known before");
  }

  /**
   * A change in words: by how much, which way, and whether that is more than its own uncertainty.
   */
  private static String changed(Estimate change, MassStyle style) {
    String size =
        Figure.of(change.value().signum() < 0 ? change.times(-1) : change, style).sentence();
    return switch (Verdict.of(change)) {
      case LIGHTER -> "lighter by " + size;
      case HEAVIER -> "heavier by " + size;
      case UNDECIDED ->
          change.value().signum() == 0
              ? "no change"
              : "no change that could be told (" + size + ")";
    };
  }

  private static boolean said(@Nullable String typed) {
    return typed != null && !typed.isBlank();
  }
}
