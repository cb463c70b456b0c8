package org.tareline.rig.web;

import static org.tareline.site.Difference.differ;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.InvalidPropertyException;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.InitBinder;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.ledger.Member;
import org.tareline.rig.HeldLine;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Things;
import org.tareline.rig.web.RigForm.LineForm;
import org.tareline.site.Difference;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** The form that makes or describes a rig. */
@Controller
class RigFormController {

  /** Rows that a form may have; a rig takes fewer and says so itself. */
  private static final int MOST_ROWS = 2_600;

  private static final Pattern AT_A_LINE = Pattern.compile("lines\\[(\\d+)](?:\\.(\\w+))?");

  /**
   * The page around the form.
   *
   * @param code of the rig that is described; null for a new one
   * @param spare a row for whoever adds more
   * @param names of the things in the lines as saved, by what is typed for each
   * @param saved who has saved it since and when, as a sentence; null unless somebody has
   * @param meanwhile where what was saved since is not what was typed
   */
  record Page(
      String title,
      String action,
      @Nullable String code,
      RigForm form,
      List<LineForm> rows,
      LineForm spare,
      Map<String, String> names,
      List<String> roles,
      @Nullable String saved,
      List<Difference> meanwhile) {}

  /** What a form was read to be: an entry, and from which rows its lines are. */
  private record Reading(Rigs.Entry entry, List<Integer> rowOfLine, Map<Integer, String> untold) {}

  private final Rigs rigs;
  private final Things things;
  private final Moments moments;

  RigFormController(Rigs rigs, Things things, Moments moments) {
    this.rigs = rigs;
    this.things = things;
    this.moments = moments;
  }

  @InitBinder("form")
  void allowLargeRigs(WebDataBinder binder) {
    binder.setAutoGrowCollectionLimit(MOST_ROWS);
  }

  /** What the binder throws where the index of a line is no number, or not one of any line. */
  @ExceptionHandler({
    NumberFormatException.class,
    IndexOutOfBoundsException.class,
    InvalidPropertyException.class
  })
  void noSuchRow(HttpServletResponse response) throws IOException {
    response.sendError(HttpServletResponse.SC_BAD_REQUEST);
  }

  @GetMapping("/rigs/new")
  String newRig(Member member, Model model) {
    return form(member, model, null, RigForm.empty(), null, List.of());
  }

  /** The same form with more rows, for whoever has no scripts to add them. */
  @PostMapping(path = "/rigs/new", params = "more")
  String moreForNew(Member member, @ModelAttribute("form") RigForm form, Model model) {
    return form(member, model, null, form.withMoreLines(), null, List.of());
  }

  /** As for a new rig. */
  @PostMapping(path = "/rigs/{code}/edit", params = "more")
  String moreForKnown(
      Member member, @PathVariable String code, @ModelAttribute("form") RigForm form, Model model) {
    return form(
        member, model, rigs.get(member, code).code(), form.withMoreLines(), null, List.of());
  }

  @PostMapping("/rigs/new")
  Object add(
      Member member, @ModelAttribute("form") RigForm form, Model model, RedirectAttributes flash) {
    Reading reading = read(member, form);
    List<String> roles = rigs.roles(member);
    try {
      Rig rig = rigs.add(member, reading.entry());
      return done(member, rig, rig.code() + " is in the ledger.", roles, flash);
    } catch (Refusal refusal) {
      model.addAttribute("faults", faults(refusal, reading));
      return form(member, model, null, form, null, List.of());
    }
  }

  @GetMapping("/rigs/{code}/edit")
  String edit(Member member, @PathVariable String code, Model model) {
    Rig rig = rigs.get(member, code);
    return form(member, model, rig.code(), asSaved(member, rig), null, List.of());
  }

  @PostMapping("/rigs/{code}/edit")
  Object change(
      Member member,
      @PathVariable String code,
      @ModelAttribute("form") RigForm form,
      Model model,
      RedirectAttributes flash) {
    Rig before = rigs.get(member, code);
    Reading reading = read(member, form);
    List<String> roles = rigs.roles(member);
    try {
      Rig rig = rigs.change(member, code, reading.entry(), form.expected());
      return done(member, rig, rig.code() + " was saved.", roles, flash);
    } catch (Refusal refusal) {
      model.addAttribute("faults", faults(refusal, reading));
      if (refusal.kind() != Refusal.Kind.STALE) {
        return form(member, model, before.code(), form, null, List.of());
      }
      Rig now = rigs.get(member, code);
      return form(
          member,
          model,
          now.code(),
          form.from(now, rigs.lines(member, now)),
          savedBy(member, now),
          differences(asSaved(member, now), form));
    }
  }

  private RigForm asSaved(Member member, Rig rig) {
    List<HeldLine> lines = rigs.lines(member, rig);
    return RigForm.of(rig, lines, things.typed(member, lines));
  }

  private String savedBy(Member member, Rig now) {
    return rigs.lastSaved(member, now)
        .map(saved -> saved.accountName() + " saved it on " + moments.minute(saved.at()) + ".")
        .orElse("It was saved meanwhile.");
  }

  private Object done(
      Member member, Rig rig, String words, List<String> rolesBefore, RedirectAttributes flash) {
    List<String> added = new ArrayList<>();
    rigs.lines(member, rig).stream()
        .map(HeldLine::role)
        .distinct()
        .filter(role -> !rolesBefore.contains(role))
        .forEach(added::add);
    flash.addFlashAttribute(
        "done",
        added.isEmpty()
            ? words
            : words
                + " New in this ledger as a role: "
                + String.join(", ", added)
                + ". What counts named roles alone leaves it out.");
    return SeeOther.page("/rigs/{code}", rig.code());
  }

  private Reading read(Member member, RigForm form) {
    List<LineForm> rows = form.rows();
    Set<String> texts =
        rows.stream()
            .filter(row -> !row.empty())
            .map(row -> text(row.thing()))
            .filter(text -> !text.isEmpty())
            .collect(Collectors.toSet());
    Map<String, Things.Told> told = things.tell(member, texts);
    List<Rigs.@Nullable LineEntry> lines = new ArrayList<>();
    List<Integer> rowOfLine = new ArrayList<>();
    Map<Integer, String> untold = new LinkedHashMap<>();
    for (int i = 0; i < rows.size(); i++) {
      LineForm row = rows.get(i);
      if (row.empty()) {
        continue;
      }
      Things.Told thing = told.get(text(row.thing()));
      if (thing == null) {
        untold.put(
            i,
            row.known()
                ? "Name the part or the rig, or tick to take the line out."
                : "Name the part or the rig that the line holds.");
      } else if (thing.fault() != null) {
        untold.put(i, thing.fault());
      }
      rowOfLine.add(i);
      lines.add(
          new Rigs.LineEntry(
              row.id(),
              thing == null ? null : thing.part(),
              thing == null ? null : thing.rig(),
              row.quantity(),
              row.role()));
    }
    return new Reading(
        new Rigs.Entry(form.code(), form.name(), lines, form.note()), rowOfLine, untold);
  }

  /** The same faults at the fields of the form, where empty rows are counted too. */
  private static List<Refusal.Fault> faults(Refusal refusal, Reading reading) {
    List<Refusal.Fault> faults = new ArrayList<>();
    for (Refusal.Fault fault : refusal.faults()) {
      Matcher line = AT_A_LINE.matcher(fault.field());
      if (!line.matches()) {
        faults.add(
            fault.field().equals("lines")
                ? new Refusal.Fault("lines[0].thing", fault.message())
                : fault);
        continue;
      }
      int row = reading.rowOfLine().get(Integer.parseInt(line.group(1)));
      String part = Objects.requireNonNullElse(line.group(2), "thing");
      boolean ofThing = !part.equals("quantity") && !part.equals("role");
      String words =
          ofThing ? reading.untold().getOrDefault(row, fault.message()) : fault.message();
      faults.add(new Refusal.Fault("lines[" + row + "]." + (ofThing ? "thing" : part), words));
    }
    return faults;
  }

  private static List<Difference> differences(RigForm saved, RigForm typed) {
    List<Difference> differences = new ArrayList<>();
    differ(differences, "Code", saved.code(), typed.code());
    differ(differences, "Name", saved.name(), typed.name());
    differ(differences, "Note", saved.note(), typed.note());
    Map<String, String> typedById = new LinkedHashMap<>();
    List<String> fresh = new ArrayList<>();
    for (LineForm row : typed.rows()) {
      if (!row.empty() && row.known()) {
        typedById.put(text(row.id()), words(row));
      } else if (!row.empty()) {
        fresh.add(words(row));
      }
    }
    Set<String> savedIds = new HashSet<>();
    for (LineForm row : saved.rows()) {
      savedIds.add(text(row.id()));
      differ(
          differences, "Line", words(row), typedById.getOrDefault(text(row.id()), "no such line"));
    }
    typedById.forEach(
        (id, words) -> {
          if (!savedIds.contains(id)) {
            differ(differences, "Line", "no such line", words);
          }
        });
    fresh.forEach(words -> differ(differences, "Line", "no such line", words));
    return differences;
  }

  private static String words(LineForm row) {
    String quantity = text(row.quantity());
    return (quantity.isEmpty() ? "1" : quantity)
        + " × "
        + text(row.thing())
        + ", "
        + text(row.role());
  }

  private static String text(@Nullable String typed) {
    return typed == null ? "" : typed.strip();
  }

  private Map<String, String> names(Member member, Rig rig) {
    List<HeldLine> lines = rigs.lines(member, rig);
    List<String> typed = things.typed(member, lines);
    Map<String, String> names = new HashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      names.put(typed.get(i), lines.get(i).name());
    }
    return names;
  }

  private String form(
      Member member,
      Model model,
      @Nullable String code,
      RigForm form,
      @Nullable String saved,
      List<Difference> meanwhile) {
    RigForm shown = form.withSpareLines();
    model.addAttribute(
        "page",
        new Page(
            code == null ? "New rig" : "Edit " + code,
            code == null ? "Put it into the ledger" : "Save",
            code,
            shown,
            shown.rows(),
            LineForm.spare(),
            code == null ? Map.of() : names(member, rigs.get(member, code)),
            rigs.roles(member),
            saved,
            meanwhile));
    return "rig/form";
  }
}
