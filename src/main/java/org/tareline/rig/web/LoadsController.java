package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.ledger.Member;
import org.tareline.rig.Cautions;
import org.tareline.rig.HangEntry;
import org.tareline.rig.HangLoads;
import org.tareline.rig.LoadPlace;
import org.tareline.rig.Rig;
import org.tareline.rig.RigLoad;
import org.tareline.rig.Rigs;
import org.tareline.rig.SetUp;
import org.tareline.rig.SetUps;
import org.tareline.rig.Termination;
import org.tareline.site.FormFields;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** What a rig carries, how it is hung, and how it was hung before. */
@Controller
class LoadsController {

  private static final int BLANK_ELEMENTS = 3;
  private static final int MOST_ELEMENTS = 200;

  /**
   * The form that says how a rig is hung, by the name of the field.
   *
   * @param elements how many rows of them there are
   */
  record HangForm(
      String code,
      String name,
      Map<String, String> typed,
      List<Integer> elements,
      List<Choice> places,
      List<Choice> terminations,
      List<String> cautions) {

    /** What stands in a field. */
    public String of(String field) {
      return typed.getOrDefault(field, "");
    }
  }

  /** The form of a hang record, by the name of the field. */
  record RecordForm(String code, @Nullable String id, Map<String, String> typed) {

    /** What stands in a field. */
    public String of(String field) {
      return typed.getOrDefault(field, "");
    }
  }

  private final Rigs rigs;
  private final HangLoads loads;
  private final SetUps setUps;

  LoadsController(Rigs rigs, HangLoads loads, SetUps setUps) {
    this.rigs = rigs;
    this.loads = loads;
    this.setUps = setUps;
  }

  @GetMapping("/rigs/{code}/loads")
  String loads(Member member, @PathVariable String code, Model model) {
    Rig rig = rigs.get(member, code);
    model.addAttribute("page", LoadsPage.of(member, loads.of(member, rig), setUps.of(member, rig)));
    return "rig/loads";
  }

  @GetMapping("/rigs/{code}/loads/edit")
  String edit(Member member, @PathVariable String code, Model model) {
    RigLoad load = loads.of(member, rigs.get(member, code));
    return form(load.rig(), fields(load), model);
  }

  @PostMapping("/rigs/{code}/loads/edit")
  Object hang(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      Model model,
      RedirectAttributes flash) {
    Rig rig = rigs.get(member, code);
    Map<String, String> compact = compact(typed);
    try {
      loads.hang(member, rig.code(), entry(compact), revision(typed));
      flash.addFlashAttribute("done", "How " + rig.code() + " is hung was saved.");
      return SeeOther.page("/rigs/{code}/loads", rig.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      if (refusal.kind() == Refusal.Kind.STALE) {
        compact.put("revision", String.valueOf(loads.of(member, rig).revision()));
      }
      return form(rig, compact, model);
    }
  }

  private static String form(Rig rig, Map<String, String> typed, Model model) {
    List<Integer> rows = new ArrayList<>();
    int used = rowsUsed(typed);
    for (int i = 0; i < Math.min(used + BLANK_ELEMENTS, MOST_ELEMENTS); i++) {
      rows.add(i);
    }
    model.addAttribute(
        "page",
        new HangForm(
            rig.code(),
            rig.name(),
            typed,
            rows,
            Stream.of(LoadPlace.values())
                .map(place -> new Choice(place.word(), place.word()))
                .toList(),
            Stream.concat(
                    Stream.of(new Choice("", "not known")),
                    Stream.of(Termination.values()).map(one -> new Choice(one.word(), one.word())))
                .toList(),
            Cautions.ALL));
    return "rig/loads-form";
  }

  private static int rowsUsed(Map<String, String> typed) {
    int used = 0;
    while (typed.containsKey("elements[" + used + "].part")) {
      used++;
    }
    return used;
  }

  /** What is kept, by the name of the field; of a rig of which nothing is, its parts. */
  private static Map<String, String> fields(RigLoad load) {
    Map<String, String> typed = new HashMap<>();
    typed.put("revision", String.valueOf(load.revision()));
    HangLoads.Entry hung = load.hung();
    int row = 0;
    if (hung != null) {
      put(typed, "lies", hung.lies());
      put(typed, "hangs", hung.hangs());
      put(typed, "dynamicAllowance", hung.dynamicAllowance());
      put(typed, "designFactor", hung.designFactor());
      put(typed, "ridgeLine.length", hung.ridgeLength());
      put(typed, "ridgeLine.flatLength", hung.flatLength());
      put(typed, "bodyEdge.span", hung.edgeSpan());
      put(typed, "bodyEdge.sag", hung.edgeSag());
      put(typed, "gives.tree", hung.treeGives());
      put(typed, "gives.settling", hung.settles());
      for (int i = 0; hung.ends() != null && i < hung.ends().size(); i++) {
        HangEntry.EndEntry end = hung.ends().get(i);
        if (end != null) {
          putEnd(typed, "ends[" + i + "].", end);
        }
      }
      for (int i = 0; hung.elements() != null && i < hung.elements().size(); i++) {
        HangLoads.PartEntry part = hung.elements().get(i);
        if (part != null) {
          putPart(typed, "elements[" + row++ + "].", part);
        }
      }
    } else {
      for (String part : load.unsaid()) {
        typed.put("elements[" + row++ + "].part", part);
      }
    }
    return typed;
  }

  private static void putEnd(Map<String, String> typed, String at, HangEntry.EndEntry end) {
    put(typed, at + "angle", end.angle());
    put(typed, at + "run", end.run());
    put(typed, at + "rise", end.rise());
    put(typed, at + "bodyAngle", end.bodyAngle());
    HangEntry.BarEntry bar = end.bar();
    if (bar != null) {
      put(typed, at + "bar.length", bar.length());
      put(typed, at + "bar.leg", bar.leg());
      put(typed, at + "bar.apexDistance", bar.apexDistance());
      put(typed, at + "bar.edgeAngle", bar.edgeAngle());
      put(typed, at + "bar.outerDiameter", bar.outerDiameter());
      put(typed, at + "bar.wall", bar.wall());
      put(typed, at + "bar.modulus", bar.modulus());
      put(typed, at + "bar.yield", bar.yield());
    }
  }

  private static void putPart(Map<String, String> typed, String at, HangLoads.PartEntry part) {
    put(typed, at + "part", part.part());
    put(typed, at + "where", part.where());
    put(typed, at + "termination", part.termination());
    put(typed, at + "terminationFactor", part.terminationFactor());
    put(typed, at + "terminationSource", part.terminationSource());
    put(typed, at + "length", part.length());
    put(typed, at + "breakingStretch", part.breakingStretch());
  }

  private static void put(Map<String, String> typed, String field, @Nullable String value) {
    if (value != null) {
      typed.put(field, value);
    }
  }

  /** What was typed without the rows of elements that name nothing, so that faults find theirs. */
  private static Map<String, String> compact(Map<String, String> typed) {
    Map<String, String> compact = new HashMap<>(typed);
    compact.keySet().removeIf(field -> field.startsWith("elements["));
    int row = 0;
    for (int i = 0; i < MOST_ELEMENTS; i++) {
      String from = "elements[" + i + "].";
      String to = "elements[" + row + "].";
      boolean named =
          Stream.of("part", "terminationFactor", "terminationSource", "length", "breakingStretch")
              .anyMatch(field -> !typed.getOrDefault(from + field, "").isBlank());
      if (named) {
        typed.forEach(
            (field, value) -> {
              if (field.startsWith(from)) {
                compact.put(to + field.substring(from.length()), value);
              }
            });
        row++;
      }
    }
    return compact;
  }

  private static HangLoads.Entry entry(Map<String, String> typed) {
    List<HangEntry.@Nullable EndEntry> ends = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      String at = "ends[" + i + "].";
      boolean barred =
          typed.entrySet().stream()
              .anyMatch(one -> one.getKey().startsWith(at + "bar.") && !one.getValue().isBlank());
      ends.add(
          new HangEntry.EndEntry(
              typed.get(at + "angle"),
              typed.get(at + "run"),
              typed.get(at + "rise"),
              typed.get(at + "bodyAngle"),
              barred
                  ? new HangEntry.BarEntry(
                      typed.get(at + "bar.length"),
                      typed.get(at + "bar.leg"),
                      typed.get(at + "bar.apexDistance"),
                      typed.get(at + "bar.edgeAngle"),
                      typed.get(at + "bar.outerDiameter"),
                      typed.get(at + "bar.wall"),
                      typed.get(at + "bar.modulus"),
                      typed.get(at + "bar.yield"))
                  : null));
    }
    List<HangLoads.@Nullable PartEntry> elements = new ArrayList<>();
    for (int i = 0; i < rowsUsed(typed); i++) {
      String at = "elements[" + i + "].";
      elements.add(
          new HangLoads.PartEntry(
              typed.get(at + "part"),
              typed.get(at + "where"),
              typed.get(at + "termination"),
              typed.get(at + "terminationFactor"),
              typed.get(at + "terminationSource"),
              typed.get(at + "length"),
              typed.get(at + "breakingStretch")));
    }
    return new HangLoads.Entry(
        typed.get("lies"),
        typed.get("hangs"),
        typed.get("dynamicAllowance"),
        typed.get("designFactor"),
        typed.get("ridgeLine.length"),
        typed.get("ridgeLine.flatLength"),
        typed.get("bodyEdge.span"),
        typed.get("bodyEdge.sag"),
        typed.get("gives.tree"),
        typed.get("gives.settling"),
        ends,
        elements);
  }

  /** The revision named, or one that there never is. */
  private static int revision(Map<String, String> typed) {
    String revision = typed.getOrDefault("revision", "");
    return FormFields.revision(revision);
  }

  @GetMapping("/rigs/{code}/set-ups/new")
  String newRecord(Member member, @PathVariable String code, Model model) {
    return record(rigs.get(member, code), null, Map.of(), model);
  }

  @GetMapping("/rigs/{code}/set-ups/{id}/edit")
  String editRecord(
      Member member, @PathVariable String code, @PathVariable String id, Model model) {
    Rig rig = rigs.get(member, code);
    SetUp setUp = setUps.get(member, rig, id);
    SetUps.Entry entry = setUp.entry();
    Map<String, String> typed = new HashMap<>();
    typed.put("revision", String.valueOf(setUp.revision()));
    put(typed, "hungOn", entry.hungOn());
    put(typed, "ridgeLength", entry.ridgeLength());
    put(typed, "ridgeMark", entry.ridgeMark());
    put(typed, "headAngle", entry.headAngle());
    put(typed, "headRun", entry.headRun());
    put(typed, "headRise", entry.headRise());
    put(typed, "footAngle", entry.footAngle());
    put(typed, "footRun", entry.footRun());
    put(typed, "footRise", entry.footRise());
    put(typed, "sag", entry.sag());
    put(typed, "headHeight", entry.headHeight());
    put(typed, "footHeight", entry.footHeight());
    put(typed, "anchorDistance", entry.anchorDistance());
    put(typed, "words", entry.words());
    put(typed, "favourite", Boolean.TRUE.equals(entry.favourite()) ? "on" : null);
    return record(rig, id, typed, model);
  }

  @PostMapping("/rigs/{code}/set-ups/new")
  Object addRecord(
      Member member,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      Model model,
      RedirectAttributes flash) {
    Rig rig = rigs.get(member, code);
    try {
      setUps.add(member, rig.code(), recordEntry(typed));
      flash.addFlashAttribute("done", "The hang record was saved.");
      return SeeOther.page("/rigs/{code}/loads", rig.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return record(rig, null, typed, model);
    }
  }

  @PostMapping("/rigs/{code}/set-ups/{id}/edit")
  Object changeRecord(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      @RequestParam Map<String, String> typed,
      Model model,
      RedirectAttributes flash) {
    Rig rig = rigs.get(member, code);
    try {
      setUps.change(member, rig.code(), id, recordEntry(typed), revision(typed));
      flash.addFlashAttribute("done", "The hang record was saved.");
      return SeeOther.page("/rigs/{code}/loads", rig.code());
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      Map<String, String> again = new HashMap<>(typed);
      if (refusal.kind() == Refusal.Kind.STALE) {
        again.put("revision", String.valueOf(setUps.get(member, rig, id).revision()));
      }
      return record(rig, id, again, model);
    }
  }

  private static String record(
      Rig rig, @Nullable String id, Map<String, String> typed, Model model) {
    model.addAttribute("page", new RecordForm(rig.code(), id, typed));
    return "rig/set-up-form";
  }

  private static SetUps.Entry recordEntry(Map<String, String> typed) {
    return new SetUps.Entry(
        typed.get("hungOn"),
        typed.get("ridgeLength"),
        typed.get("ridgeMark"),
        typed.get("headAngle"),
        typed.get("headRun"),
        typed.get("headRise"),
        typed.get("footAngle"),
        typed.get("footRun"),
        typed.get("footRise"),
        typed.get("sag"),
        typed.get("headHeight"),
        typed.get("footHeight"),
        typed.get("anchorDistance"),
        typed.get("words"),
        typed.containsKey("favourite"));
  }
}
