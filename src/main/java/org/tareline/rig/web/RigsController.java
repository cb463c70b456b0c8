package org.tareline.rig.web;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.tareline.ledger.Member;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Things;
import org.tareline.rig.web.RigTable.Line;
import org.tareline.rollup.RollUp;
import org.tareline.site.Figure;
import org.tareline.site.TableAsked;
import org.tareline.site.TableOrder;
import org.tareline.site.TableOrder.Head;
import org.tareline.units.MassStyle;

/** The rigs of a ledger as a table and as a file, and the few things that fit some letters. */
@Controller
class RigsController {

  private static final int MOST_SUGGESTIONS = 12;

  /**
   * A rig.
   *
   * @param tooMuch whether it is more than can be added up
   * @param notWeighed such as {@code 2 of 9}
   */
  record Row(
      String code,
      String name,
      @Nullable Figure figure,
      boolean atLeast,
      boolean tooMuch,
      String notWeighed,
      String basis) {}

  record Page(
      TableAsked asked,
      String caption,
      List<Head> names,
      List<Head> heads,
      List<Row> rows,
      String csv,
      boolean noneAtAll) {}

  record Suggestion(String code, String name, String aside) {}

  private final Rigs rigs;
  private final Things things;

  RigsController(Rigs rigs, Things things) {
    this.rigs = rigs;
    this.things = things;
  }

  @GetMapping("/rigs")
  String rigs(Member member, @ModelAttribute("asked") TableAsked asked, Model model) {
    List<Rig> all = rigs.all(member);
    TableOrder<Line> order = new TableOrder<>(asked, RigTable.columns(member.massStyle()));
    List<Line> lines = table(member, all, asked, order).lines();
    List<Head> heads = order.heads("/rigs", Map.of());
    model.addAttribute(
        "page",
        new Page(
            asked,
            asked.found(lines.size(), all.size(), "rig", asked.filtered())
                + "; everything in them counted, ± at 95 %",
            heads.subList(0, 2),
            heads.subList(2, heads.size()),
            rows(lines, member.massStyle()),
            order.address("/rigs.csv", Map.of()),
            all.isEmpty()));
    return "rig/rigs";
  }

  @GetMapping("/rigs.csv")
  ResponseEntity<byte[]> file(Member member, @ModelAttribute("asked") TableAsked asked) {
    TableOrder<Line> order = new TableOrder<>(asked, RigTable.columns(member.massStyle()));
    return table(member, rigs.all(member), asked, order).csv().asFile("rigs.csv");
  }

  /** For type-ahead: the parts and rigs that a line may hold. */
  @GetMapping("/rigs/things")
  @ResponseBody
  List<Suggestion> things(Member member, @RequestParam(defaultValue = "") String text) {
    return things.search(member, text, MOST_SUGGESTIONS).stream()
        .map(
            thing ->
                new Suggestion(thing.typed(), thing.name(), thing.part() == null ? "a rig" : ""))
        .toList();
  }

  /** For type-ahead: the rigs alone. */
  @GetMapping("/rigs/suggestions")
  @ResponseBody
  List<Suggestion> suggestions(Member member, @RequestParam(defaultValue = "") String text) {
    return rigs.search(member, text, MOST_SUGGESTIONS).stream()
        .map(rig -> new Suggestion(rig.code(), rig.name(), ""))
        .toList();
  }

  private RigTable table(Member member, List<Rig> all, TableAsked asked, TableOrder<Line> order) {
    return RigTable.of(
        all, found -> rigs.forest(member, found.stream().map(Rig::id).toList()), asked, order);
  }

  private static List<Row> rows(List<Line> lines, MassStyle style) {
    int decimals = Figure.decimals(lines.stream().map(Line::total).toList(), style);
    return lines.stream().map(line -> row(line, style, decimals)).toList();
  }

  private static Row row(Line line, MassStyle style, int decimals) {
    RollUp rollUp = line.rollUp();
    return new Row(
        line.rig().code(),
        line.rig().name(),
        Figure.orNull(line.total(), style, decimals),
        line.total() != null && rollUp != null && rollUp.atLeast(),
        rollUp == null,
        rollUp == null ? "" : rollUp.unweighedLines() + " of " + rollUp.leafLines(),
        line.basis() == null ? "not known" : line.basis().pageWords());
  }
}
