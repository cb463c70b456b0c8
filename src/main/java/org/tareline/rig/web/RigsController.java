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
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Things;
import org.tareline.rig.web.RigTable.Column;
import org.tareline.rig.web.RigTable.Line;
import org.tareline.rollup.RollUp;
import org.tareline.site.CsvTable;
import org.tareline.site.Figure;
import org.tareline.units.MassStyle;

/** The rigs of a ledger as a table and as a file, and the few things that fit some letters. */
@Controller
class RigsController {

  private static final int MOST_SUGGESTIONS = 12;

  /** What was asked for, as typed; what makes no sense is taken as not asked. */
  record Asked(@Nullable String text, @Nullable String sort, @Nullable String order) {

    String words() {
      return text == null ? "" : text.strip();
    }

    public boolean filtered() {
      return !words().isEmpty();
    }

    Column column() {
      return Column.of(sort);
    }

    boolean descending() {
      return "descending".equals(order);
    }
  }

  /**
   * The heading of a column, which sorts by it.
   *
   * @param heard said before the label where that is a sign alone
   * @param sorted {@code ascending} or {@code descending}; null where it is sorted by another
   */
  record Head(
      @Nullable String heard, String label, String look, String address, @Nullable String sorted) {}

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
      Asked asked,
      String caption,
      List<Head> names,
      List<Head> heads,
      List<Row> rows,
      String csv,
      String safeCells,
      boolean noneAtAll) {}

  record Suggestion(String code, String name, String aside) {}

  private final Rigs rigs;
  private final Things things;

  RigsController(Rigs rigs, Things things) {
    this.rigs = rigs;
    this.things = things;
  }

  @GetMapping("/rigs")
  String rigs(Member member, @ModelAttribute("asked") Asked asked, Model model) {
    List<Rig> all = rigs.all(member);
    List<Line> lines = table(member, all, asked).lines();
    model.addAttribute(
        "page",
        new Page(
            asked,
            caption(all.size(), lines.size(), asked),
            names(asked),
            heads(asked, member.massStyle()),
            rows(lines, member.massStyle()),
            address("/rigs.csv", asked, asked.column(), asked.descending()),
            CsvTable.SAFE_CELLS,
            all.isEmpty()));
    return "rig/rigs";
  }

  @GetMapping("/rigs.csv")
  ResponseEntity<byte[]> file(Member member, @ModelAttribute("asked") Asked asked) {
    return table(member, rigs.all(member), asked).csv().asFile("rigs.csv");
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

  private RigTable table(Member member, List<Rig> all, Asked asked) {
    return RigTable.of(
            all, found -> rigs.forest(member, found.stream().map(Rig::id).toList()), asked.words())
        .sortedBy(asked.column(), asked.descending());
  }

  private static String caption(int all, int found, Asked asked) {
    return found
        + (asked.filtered() ? " of " + all : "")
        + (all == 1 ? " rig" : " rigs")
        + (asked.filtered() ? " holding “" + asked.words() + "”" : "")
        + "; everything in them counted, ± at 95 %";
  }

  /** The two by which the first column may be sorted. */
  private static List<Head> names(Asked asked) {
    return List.of(
        head(asked, Column.CODE, null, "Code", ""), head(asked, Column.NAME, null, "Name", ""));
  }

  private static List<Head> heads(Asked asked, MassStyle style) {
    return List.of(
        head(asked, Column.MASS, null, "Complete, " + style.heading(), "mass"),
        head(asked, Column.UNCERTAINTY, "Uncertainty, ", "±", "mass mass--u"),
        head(asked, Column.NOT_WEIGHED, null, "Not weighed", "number"),
        head(asked, Column.BASIS, null, "Mass is", ""));
  }

  private static Head head(
      Asked asked, Column column, @Nullable String heard, String label, String look) {
    boolean sorted = asked.column() == column;
    boolean descending = sorted ? !asked.descending() : column.descendingFirst();
    return new Head(
        heard,
        label,
        look,
        address("/rigs", asked, column, descending),
        sorted ? asked.descending() ? "descending" : "ascending" : null);
  }

  /** An address that carries along all that was asked for. */
  private static String address(String path, Asked asked, Column column, boolean descending) {
    UriComponentsBuilder address = UriComponentsBuilder.fromPath(path);
    if (asked.filtered()) {
      address.queryParam("text", "{text}");
    }
    if (column != Column.CODE || descending) {
      address
          .queryParam("sort", column.word())
          .queryParam("order", descending ? "descending" : "ascending");
    }
    return address.encode().build(Map.of("text", asked.words())).toString();
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
