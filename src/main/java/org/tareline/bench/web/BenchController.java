package org.tareline.bench.web;

import jakarta.servlet.http.HttpServletResponse;
import java.io.Serializable;
import java.time.Clock;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.bench.Bench;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rig.Moved;
import org.tareline.site.Figure;
import org.tareline.site.FormFields.Choice;
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
import org.tareline.weighing.Reading;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * The home page: the next weighing, what the last one moved, today's, and the parts that wait for
 * the scale.
 */
@Controller
class BenchController {

  private static final Set<String> FIELDS_OF_MORE =
      Set.of("tare", "count", "condition", "weighedAt", "tolerance", "note");

  private static final String NOT_RECORDED = "";
  private static final int MOST_OF_TODAY = 15;
  private static final int MOST_WAITING = 24;
  private static final int MOST_MOVED = 8;

  /** What was typed, as typed. */
  record EntryForm(
      @Nullable String part,
      @Nullable String readings,
      @Nullable String scale,
      @Nullable String tolerance,
      @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      @Nullable String sure,
      @Nullable NewPart newPart,
      @Nullable NewScale newScale) {

    static EntryForm empty(@Nullable String part, @Nullable String scale) {
      return new EntryForm(
          part, null, scale, null, null, null, "dry", null, null, null, null, null);
    }

    /** Whether anything but part, reading and scale was said. */
    public boolean more() {
      return said(tare)
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

  /** What became of an entry, ready to be shown; kept in the session from the post to the page. */
  record Answer(
      String part,
      String name,
      String mass,
      @Nullable String change,
      List<Line> moved,
      int movedMore,
      List<String> notes,
      boolean struckOut)
      implements Serializable {

    record Line(String rig, String name, String before, String after, String change)
        implements Serializable {}
  }

  /** A weighing in the list of today's. */
  record Entered(
      String id,
      String time,
      @Nullable String part,
      String name,
      String readings,
      String scale,
      String aside,
      Figure figure,
      @Nullable String struckOut) {}

  record Waiting(String code, String name, String aside) {}

  /** A scale to choose; its unit is shown beside the reading. */
  record ScaleChoice(String code, String words, String unit) {}

  private final Bench bench;
  private final Parts parts;
  private final Scales scales;
  private final Weighings weighings;
  private final Clock clock;

  BenchController(Bench bench, Parts parts, Scales scales, Weighings weighings, Clock clock) {
    this.bench = bench;
    this.parts = parts;
    this.scales = scales;
    this.weighings = weighings;
    this.clock = clock;
  }

  @GetMapping("/")
  String bench(Member member, @RequestParam(required = false) @Nullable String part, Model model) {
    String lastUsed = scales.lastUsed(member).map(Scale::code).orElse(null);
    return page(member, model, EntryForm.empty(part, lastUsed), List.of());
  }

  @PostMapping("/weighings")
  Object log(
      Member member,
      @ModelAttribute EntryForm form,
      HttpServletResponse response,
      Model model,
      RedirectAttributes flash) {
    try {
      Bench.Outcome outcome = bench.log(member, entry(form), true);
      flash.addFlashAttribute("answer", answer(outcome, member.massStyle(), false));
      return SeeOther.page("/");
    } catch (Refusal refusal) {
      response.setStatus(422);
      return page(member, model, form, atFields(refusal.faults()));
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
    if ("part".equals(from)) {
      flash.addFlashAttribute("done", "The weighing was struck out: " + reason + ".");
      return SeeOther.page("/parts/{code}", outcome.part().code());
    }
    flash.addFlashAttribute("answer", answer(outcome, member.massStyle(), true));
    return SeeOther.page("/");
  }

  private static Bench.Entry entry(EntryForm form) {
    NewPart newPart = form.newPart();
    NewScale newScale = form.newScale();
    return new Bench.Entry(
        form.part(),
        new Weighings.Entry(
            form.scale(),
            form.tolerance(),
            readings(form.readings()),
            form.tare(),
            form.count(),
            form.condition(),
            form.weighedAt(),
            form.note()),
        newPart != null && said(newPart.name())
            ? new Parts.Entry(
                newPart.code(), newPart.name(), newPart.system(), null, null, null, null)
            : null,
        newScale != null && said(newScale.code())
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

  /** The page has one field for all readings. */
  private static List<Fault> atFields(List<Fault> faults) {
    return faults.stream()
        .map(
            fault ->
                fault.field().startsWith("readings[")
                    ? new Fault("readings", fault.message())
                    : fault)
        .toList();
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
        form.newScale() == null ? new NewScale(null, null, null, null) : form.newScale());
    model.addAttribute(
        "newScaleOpen", all.isEmpty() || (form.newScale() != null && said(form.newScale().code())));
    model.addAttribute("askedAboutUnits", askedAboutUnits);
    model.addAttribute(
        "moreOpen",
        form.more() || faults.stream().anyMatch(fault -> FIELDS_OF_MORE.contains(fault.field())));
    model.addAttribute("readingFirst", said(form.part()) && faults.isEmpty());
    model.addAttribute("scales", choices(all));
    model.addAttribute(
        "unit",
        all.stream()
            .filter(scale -> scale.code().equals(form.scale()))
            .findFirst()
            .map(scale -> scale.unit().symbol())
            .orElse(Unit.GRAM.symbol()));
    model.addAttribute(
        "conditions",
        List.of(
            new Choice(Condition.DRY.word(), "dry"),
            new Choice(Condition.AIRED.word(), "aired for a day"),
            new Choice(Condition.DAMP.word(), "damp"),
            new Choice(Condition.WET.word(), "wet")));
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
    Map<Long, Part> named =
        parts
            .byIds(member, logged.stream().map(entry -> entry.subject().id()).distinct().toList())
            .stream()
            .collect(Collectors.toMap(Part::id, Function.identity()));
    DateTimeFormatter clockTime =
        DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).withZone(clock.getZone());
    List<Estimate> estimates = logged.stream().map(entry -> entry.weighing().estimate()).toList();
    int decimals = Figure.decimals(estimates, member.massStyle());
    List<Entered> entered = new ArrayList<>();
    for (int i = 0; i < logged.size(); i++) {
      Weighing weighing = logged.get(i).weighing();
      Part part = named.get(logged.get(i).subject().id());
      entered.add(
          new Entered(
              weighing.uuid().toString(),
              clockTime.format(weighing.enteredAt()),
              part == null ? null : part.code(),
              part == null ? "" : part.name(),
              weighing.readings().stream().map(Reading::typed).collect(Collectors.joining("; ")),
              weighing.scale().map(Scale::code).orElse("not recorded"),
              aside(weighing),
              Figure.of(estimates.get(i), member.massStyle(), decimals),
              logged.get(i).voidReason()));
    }
    return entered;
  }

  private static String aside(Weighing weighing) {
    List<String> said = new ArrayList<>();
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
    Estimate change = outcome.change();
    Estimate now = struckOut ? outcome.after().estimate() : outcome.weighing().estimate();
    return new Answer(
        outcome.part().code(),
        outcome.part().name(),
        now == null ? "not weighed" : Figure.of(now, style).sentence(),
        change == null ? null : sinceBefore(change, style),
        outcome.moved().stream().limit(MOST_MOVED).map(moved -> line(moved, style)).toList(),
        Math.max(0, outcome.moved().size() - MOST_MOVED),
        List.copyOf(outcome.notes()),
        struckOut);
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
    return switch (org.tareline.evidence.Verdict.of(change)) {
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
