package org.tareline.trip.web;

import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.InitBinder;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.ledger.Member;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.trip.Afterwards;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;

/** The form that makes or describes a trip. Works without scripts: more rows are asked for. */
@Controller
class TripController {

  /** Above the most lines a trip may have, so that its own refusal is what a person reads. */
  private static final int MOST_ROWS = 2_000;

  private static final Pattern IN_ONE_FIELD =
      Pattern.compile("^(lines\\[\\d+]\\.(?:taken|used|standsInFor|leftAtHome))[.\\[].*");

  private final Trips trips;
  private final Afterwards afterwards;

  TripController(Trips trips, Afterwards afterwards) {
    this.trips = trips;
    this.afterwards = afterwards;
  }

  @InitBinder
  void takeManyRows(WebDataBinder binder) {
    binder.setAutoGrowCollectionLimit(MOST_ROWS);
  }

  @GetMapping("/trips/new")
  String newTrip(Member member, Model model) {
    return form(member, model, null, TripForm.EMPTY, false);
  }

  @PostMapping("/trips/new")
  Object add(
      Member member,
      @ModelAttribute("form") TripForm form,
      @RequestParam(required = false) @Nullable String more,
      Model model,
      RedirectAttributes flash) {
    if (more != null) {
      return form(member, model, null, form.settled(), false);
    }
    try {
      Trip trip = trips.add(member, form.entry());
      flash.addFlashAttribute("done", trip.code() + " is in the ledger.");
      return SeeOther.page("/trips/{code}", trip.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", atFields(refusal));
      return form(member, model, null, form.settled(), false);
    }
  }

  @GetMapping("/trips/{code}/edit")
  String edit(Member member, @PathVariable String code, Model model) {
    Trip trip = trips.get(member, code);
    return form(
        member, model, trip.code(), TripForm.of(trip, trips.carried(member, List.of(trip))), false);
  }

  @PostMapping("/trips/{code}/edit")
  Object change(
      Member member,
      @PathVariable String code,
      @ModelAttribute("form") TripForm form,
      @RequestParam(required = false) @Nullable String more,
      Model model,
      RedirectAttributes flash) {
    if (more != null) {
      return form(member, model, trips.get(member, code).code(), form.settled(), false);
    }
    try {
      Trip trip = trips.change(member, code, form.entry(), form.expected());
      flash.addFlashAttribute("done", trip.code() + " was saved.");
      return SeeOther.page("/trips/{code}", trip.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", atFields(refusal));
      Trip now = trips.get(member, code);
      return refusal.kind() == Refusal.Kind.STALE
          ? form(member, model, now.code(), form.startedFrom(now), true)
          : form(member, model, now.code(), form.settled(), false);
    }
  }

  /** A copy as typed. */
  record CopyForm(@Nullable String code, @Nullable String name, @Nullable String starts) {}

  @GetMapping("/trips/{code}/copy")
  String copy(Member member, @PathVariable String code, Model model) {
    Trip trip = trips.get(member, code);
    return copyForm(model, trip, new CopyForm("", trip.name(), ""));
  }

  @PostMapping("/trips/{code}/copy")
  Object copied(
      Member member,
      @PathVariable String code,
      @ModelAttribute("form") CopyForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Trip trip = trips.copy(member, code, form.code(), form.name(), form.starts());
      flash.addFlashAttribute("done", trip.code() + " is in the ledger.");
      return SeeOther.page("/trips/{code}", trip.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return copyForm(model, trips.get(member, code), form);
    }
  }

  private static String copyForm(Model model, Trip trip, CopyForm form) {
    model.addAttribute("code", trip.code());
    model.addAttribute("name", trip.name());
    model.addAttribute("form", form);
    return "trip/copy";
  }

  /** A field of the form holds what the faults name one by one: days, parts of rigs. */
  private static List<Refusal.Fault> atFields(Refusal refusal) {
    return refusal.faults(field -> IN_ONE_FIELD.matcher(field).replaceFirst("$1"));
  }

  private String form(
      Member member, Model model, @Nullable String code, TripForm form, boolean stale) {
    model.addAttribute("questions", afterwards.questions(member));
    model.addAttribute(
        "page",
        TripFormPage.of(
            code,
            form,
            stale,
            trips.places(member),
            trips.partsOfRigs(
                member, form.kept().stream().flatMap(line -> line.rigCode().stream()).toList())));
    return "trip/form";
  }
}
