package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.rig.Cautions;
import org.tareline.rig.HangLoads;
import org.tareline.rig.Rig;
import org.tareline.rig.RigLoad;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rig.ToWeigh;
import org.tareline.rollup.Comparison;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.CsvTable;
import org.tareline.site.Faults;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Refusal;

/** Rigs side by side under one way of counting. */
@Controller
class SideBySideController {

  private static final int MOST = 20;
  private static final int FEWEST_FIELDS = 2;

  /**
   * The page.
   *
   * @param fields what was typed for each rig, and one more
   * @param counted what is counted, in words
   * @param csv address of the table as a file; null while there is none
   */
  record Page(
      List<Field> fields,
      List<Choice> scopes,
      String scope,
      String counted,
      List<Against> pairs,
      @Nullable String csv) {}

  /** One rig to compare. */
  record Field(String name, String label, String typed) {}

  private final Rigs rigs;
  private final Scopes scopes;
  private final ToWeigh toWeigh;
  private final HangLoads loads;

  SideBySideController(Rigs rigs, Scopes scopes, ToWeigh toWeigh, HangLoads loads) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.toWeigh = toWeigh;
    this.loads = loads;
  }

  @GetMapping("/side-by-side")
  String sideBySide(
      Member member,
      @RequestParam(name = "rig", required = false) @Nullable List<String> typed,
      @RequestParam(required = false) @Nullable String scope,
      Model model) {
    Scope counted = scopes.get(member, scope);
    List<String> texts = texts(typed);
    Faults faults = new Faults();
    List<RollUp> rollUps = List.of();
    String csv = null;
    try {
      List<String> codes = codes(member, texts, faults);
      faults.refuseIfAny();
      if (codes.size() > 1) {
        rollUps = rigs.rollUps(member, codes, counted);
        csv = address(codes, counted);
      }
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
    }
    List<Against> pairs = new ArrayList<>();
    Map<String, NextPanel> toTell = new HashMap<>();
    for (int i = 1; i < rollUps.size(); i++) {
      RollUp first = rollUps.get(0);
      RollUp second = rollUps.get(i);
      Against pair = Against.of("pair-" + i, first, second, member.massStyle());
      pairs.add(pair);
      if (pair.toTell() != null) {
        toWeigh
            .forDifference(member, first, second, null, NextWeighings.Which.THAT_HELP)
            .ifPresent(next -> toTell.put(pair.id(), NextPanel.of(next, member.massStyle())));
      }
    }
    model.addAttribute("toTell", toTell);
    Map<String, List<String>> strength = strength(member, rollUps);
    model.addAttribute("strength", strength);
    model.addAttribute(
        "cautions", strength.values().stream().allMatch(List::isEmpty) ? null : Cautions.ALL);
    model.addAttribute(
        "page",
        new Page(
            fields(texts),
            scopes.all(member).stream().map(s -> new Choice(s.code(), s.name())).toList(),
            counted.code(),
            counted.name() + ": " + counted.words() + ".",
            pairs,
            csv));
    return "rig/side-by-side";
  }

  /** What is known of how strong each is, beside the first, by the id of the pair. */
  private Map<String, List<String>> strength(Member member, List<RollUp> rollUps) {
    Map<String, RigLoad> known =
        loads.ofThoseHung(
            member, rollUps.stream().map(rollUp -> rollUp.assembly().code()).toList());
    Map<String, List<String>> words = new HashMap<>();
    for (int i = 1; i < rollUps.size(); i++) {
      words.put(
          "pair-" + i,
          StrengthBeside.words(rollUps.get(0), rollUps.get(i), known, member.massStyle()));
    }
    return words;
  }

  /** The same as a file, a line for each role of each pair and for each total. */
  @GetMapping("/side-by-side.csv")
  ResponseEntity<byte[]> file(
      Member member,
      @RequestParam(name = "rig", required = false) @Nullable List<String> typed,
      @RequestParam(required = false) @Nullable String scope) {
    Faults faults = new Faults();
    List<String> codes = codes(member, texts(typed), faults);
    faults.refuseIfAny();
    List<RollUp> rollUps = rigs.rollUps(member, codes, scopes.get(member, scope));
    CsvTable csv =
        new CsvTable(
            "scope",
            "first",
            "second",
            "role",
            "first [g]",
            "second [g]",
            "difference [g]",
            "expanded uncertainty of difference [g]",
            "verdict");
    for (int i = 1; i < rollUps.size(); i++) {
      RollUp first = rollUps.get(0);
      RollUp second = rollUps.get(i);
      Comparison comparison = Comparison.of(first, second);
      comparison.roles().forEach((role, pair) -> add(csv, first, second, role, pair));
      add(csv, first, second, "total", comparison.total());
    }
    return csv.asFile("side by side.csv");
  }

  private static void add(
      CsvTable csv, RollUp first, RollUp second, String role, Comparison.Pair pair) {
    Estimate a = pair.a();
    Estimate b = pair.b();
    csv.line(
        first.scope().code(),
        first.assembly().code(),
        second.assembly().code(),
        role,
        a == null ? null : a.value().grams(),
        b == null ? null : b.value().grams(),
        pair.difference().value().grams(),
        pair.difference().expandedUncertainty().grams(),
        pair.verdict().word());
  }

  private static List<String> texts(@Nullable List<String> typed) {
    return typed == null
        ? List.of()
        : typed.stream().map(String::strip).filter(text -> !text.isEmpty()).toList();
  }

  /** The codes of the rigs that are meant, by code or by what alone fits. */
  private List<String> codes(Member member, List<String> texts, Faults faults) {
    List<String> codes = new ArrayList<>();
    if (texts.size() > MOST) {
      faults.add("rig[0]", "Compare at most " + MOST + " rigs at once.");
      return codes;
    }
    for (int i = 0; i < texts.size(); i++) {
      String text = texts.get(i);
      String field = "rig[" + i + "]";
      rigs.find(member, text)
          .map(Rig::code)
          .or(
              () -> {
                List<Rig> fitting = rigs.search(member, text, 2);
                return fitting.size() == 1 ? Optional.of(fitting.get(0).code()) : Optional.empty();
              })
          .ifPresentOrElse(
              codes::add,
              () ->
                  faults.add(
                      field, "There is no rig " + Faults.shortened(text) + " in this ledger."));
    }
    return codes;
  }

  private static List<Field> fields(List<String> texts) {
    List<Field> fields = new ArrayList<>();
    int shown = Math.max(FEWEST_FIELDS, Math.min(MOST, texts.size() + 1));
    for (int i = 0; i < shown; i++) {
      fields.add(
          new Field(
              "rig[" + i + "]",
              switch (i) {
                case 0 -> "First rig";
                case 1 -> "Second rig";
                default -> "Another, if any";
              },
              i < texts.size() ? texts.get(i) : ""));
    }
    return fields;
  }

  private static String address(List<String> codes, Scope scope) {
    UriComponentsBuilder address = UriComponentsBuilder.fromPath("/side-by-side.csv");
    List<String> values = new ArrayList<>();
    for (int i = 0; i < codes.size(); i++) {
      address.queryParam("rig", "{rig" + i + "}");
      values.add(codes.get(i));
    }
    address.queryParam("scope", "{scope}");
    values.add(scope.code());
    return address.encode().build(values.toArray()).toString();
  }
}
