package org.tareline.trip.web;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
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
import org.tareline.part.LifeEvents;
import org.tareline.rollup.Assembly;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.trip.Afterwards;
import org.tareline.trip.Trip;

/** What came of a trip, thing by thing, and what was worn out or damaged on it. */
@Controller
class AfterwardsController {

  /** Chosen where nothing is to be said. */
  private static final String NO_WORD = "no word";

  private static final List<Choice> OUTCOMES =
      List.of(
          new Choice(NO_WORD, NO_WORD),
          new Choice("used", "used"),
          new Choice("not used", "not used"),
          new Choice("missed", "missed"));

  private static final List<Choice> EVENTS =
      List.of(
          new Choice("damaged", "damaged"),
          new Choice("repaired", "repaired on the way"),
          new Choice("retired", "worn out, and retired"));

  /**
   * What a line carries, or a part of its rig.
   *
   * @param field the name of its choices
   * @param outcome what is said of it; empty where nothing is, or not the same of all its parts
   * @param parts of a rig, each of which may be told apart; none of a thing by itself
   */
  record Row(String field, String name, @Nullable String code, String outcome, List<Row> parts) {

    /** Whether something is said of single parts. */
    public boolean toldApart() {
      return parts.stream().anyMatch(part -> !part.outcome().isEmpty());
    }

    public String said() {
      return outcome.isEmpty() ? NO_WORD : outcome;
    }
  }

  /**
   * The page.
   *
   * @param rows line by line, in the order of the trip
   * @param missed what was missed and was not on the trip, one a line
   * @param revision the one that the page started from
   * @param parts those of the trip, for what happened to one
   */
  record Page(
      String code,
      String name,
      @Nullable String when,
      List<Row> rows,
      String missed,
      String revision,
      List<Choice> outcomes,
      List<Choice> parts,
      List<Choice> events) {}

  /** What happened to a part, as typed. */
  record EventForm(@Nullable String part, @Nullable String kind, @Nullable String note) {
    static final EventForm EMPTY = new EventForm(null, null, null);

    /** Whether it was sent, and came back. */
    public boolean touched() {
      return part != null || kind != null || note != null;
    }
  }

  private final Afterwards afterwards;
  private final LifeEvents events;
  private final Clock clock;

  AfterwardsController(Afterwards afterwards, LifeEvents events, Clock clock) {
    this.afterwards = afterwards;
    this.events = events;
    this.clock = clock;
  }

  @GetMapping("/trips/{code}/afterwards")
  String page(Member member, @PathVariable String code, Model model) {
    return page(afterwards.of(member, code), Map.of(), EventForm.EMPTY, model);
  }

  /**
   * Writes down what came of things.
   *
   * @param typed by the names of the controls: the outcome of each line, of each part of a rig that
   *     is told apart, what was missed, and {@code rest} that of all of which nothing is said
   */
  @PostMapping("/trips/{code}/afterwards")
  Object write(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      Model model,
      RedirectAttributes flash) {
    Afterwards.Found found = afterwards.of(member, code);
    List<Afterwards.ThingEntry> things = new ArrayList<>();
    for (Afterwards.Thing thing : found.things()) {
      things.add(
          new Afterwards.ThingEntry(
              thing.thing().line().id(),
              thing.thing().code(),
              Stream.of(field(thing), ofLine(thing), "rest")
                  .map(field -> chosen(typed, field, ""))
                  .filter(outcome -> !outcome.isBlank())
                  .findFirst()
                  .orElse(null)));
    }
    List<@Nullable String> missed =
        new ArrayList<>(
            typed
                .getOrDefault("missed", "")
                .lines()
                .map(String::strip)
                .filter(line -> !line.isEmpty())
                .toList());
    try {
      afterwards.write(
          member,
          code,
          new Afterwards.Entry(new ArrayList<>(things), missed),
          expected(typed.get("revision")));
    } catch (Refusal refusal) {
      if (refusal.kind() == Refusal.Kind.STALE) {
        // What was typed is still there; saving it now writes it over what somebody else saved.
        typed.put("revision", String.valueOf(found.trip().afterwardsRevision()));
        model.addAttribute("faults", refusal.faults());
        return page(found, typed, EventForm.EMPTY, model);
      }
      model.addAttribute("faults", refusal.faults(field -> control(field, found)));
      return page(found, typed, EventForm.EMPTY, model);
    }
    flash.addFlashAttribute("done", "What came of " + found.trip().code() + " was saved.");
    return SeeOther.page("/trips/{code}/afterwards", found.trip().code());
  }

  /** The revision named, or one that there never is. */
  private static int expected(@Nullable String revision) {
    return FormFields.revision(revision);
  }

  /** The control that a fault is of. */
  private static String control(String field, Afterwards.Found found) {
    if (!field.startsWith("things[")) {
      return "missed";
    }
    int index = Integer.parseInt(field.substring("things[".length(), field.indexOf(']')));
    return field(found.things().get(index));
  }

  /** Takes note of what happened to a part on the trip. */
  @PostMapping("/trips/{code}/afterwards/events")
  Object event(
      Member member,
      @PathVariable String code,
      @ModelAttribute("event") EventForm form,
      Model model,
      RedirectAttributes flash) {
    Afterwards.Found found = afterwards.of(member, code);
    Trip trip = found.trip();
    LocalDate today = LocalDate.now(clock);
    String date =
        trip.ends().filter(end -> !end.isAfter(today)).map(LocalDate::toString).orElse(null);
    try {
      String part = form.part() == null ? "" : form.part();
      if (part.isBlank()) {
        throw Refusal.badInput("part", "Choose the part that it happened to.");
      }
      events.log(member, part, new LifeEvents.Entry(form.kind(), date, null, form.note()));
      flash.addFlashAttribute("done", part + ": " + form.kind() + ", as its page says now.");
      return SeeOther.page("/trips/{code}/afterwards", trip.code());
    } catch (NotThere gone) {
      model.addAttribute(
          "faults", List.of(new Refusal.Fault("part", "Choose a part of the trip.")));
    } catch (Refusal refusal) {
      model.addAttribute(
          "faults",
          refusal.faults(
              field -> List.of("part", "kind", "note").contains(field) ? field : "part"));
    }
    return page(found, Map.of(), form, model);
  }

  private static String field(Afterwards.Thing thing) {
    return "of-" + PackingListPage.id(thing.thing());
  }

  private static String page(
      Afterwards.Found found, Map<String, String> typed, EventForm event, Model model) {
    Map<String, String> parts = new LinkedHashMap<>();
    parts.put("", "which part?");
    for (Afterwards.Thing thing : found.things()) {
      String code = thing.thing().code();
      if (code != null) {
        parts.put(code, code + " " + thing.thing().piece().name());
      }
    }
    model.addAttribute("event", event);
    model.addAttribute(
        "page",
        new Page(
            found.trip().code(),
            found.trip().name(),
            Words.when(found.trip()),
            rows(found, typed),
            typed.getOrDefault(
                "missed",
                String.join(
                    "\n",
                    found.missed().stream()
                        .map(one -> one.code() == null ? one.name() : one.code())
                        .toList())),
            typed.getOrDefault("revision", String.valueOf(found.trip().afterwardsRevision())),
            OUTCOMES,
            parts.entrySet().stream()
                .map(part -> new Choice(part.getKey(), part.getValue()))
                .toList(),
            EVENTS));
    return "trip/afterwards";
  }

  /** What is said of a whole line. */
  private static String ofLine(Afterwards.Thing thing) {
    return "of-" + thing.thing().line().id();
  }

  private static List<Row> rows(Afterwards.Found found, Map<String, String> typed) {
    Map<String, List<Afterwards.Thing>> lines = new LinkedHashMap<>();
    for (Afterwards.Thing thing : found.things()) {
      lines.computeIfAbsent(ofLine(thing), any -> new ArrayList<>()).add(thing);
    }
    List<Row> rows = new ArrayList<>();
    lines.forEach((field, things) -> rows.add(row(field, things, typed)));
    return rows;
  }

  private static Row row(String field, List<Afterwards.Thing> things, Map<String, String> typed) {
    Assembly rig = things.get(0).thing().rig();
    String kept = said(things.get(0));
    boolean alike = things.stream().allMatch(thing -> said(thing).equals(kept));
    String outcome = chosen(typed, field, alike ? kept : "");
    return rig == null
        ? new Row(
            field,
            things.get(0).thing().piece().name(),
            things.get(0).thing().code(),
            outcome,
            List.of())
        : new Row(
            field,
            rig.name(),
            rig.code(),
            outcome,
            things.stream()
                .map(
                    thing ->
                        new Row(
                            field(thing),
                            thing.thing().piece().name(),
                            thing.thing().code(),
                            chosen(typed, field(thing), alike ? "" : said(thing)),
                            List.of()))
                .toList());
  }

  private static String chosen(Map<String, String> typed, String field, String otherwise) {
    String chosen = typed.getOrDefault(field, otherwise);
    return chosen.equals(NO_WORD) ? "" : chosen;
  }

  private static String said(Afterwards.Thing thing) {
    return thing.outcome() == null ? "" : thing.outcome();
  }
}
