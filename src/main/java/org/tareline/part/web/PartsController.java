package org.tareline.part.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.part.WorthAsking;
import org.tareline.part.web.PartTable.Column;
import org.tareline.part.web.PartTable.Line;
import org.tareline.site.CsvTable;
import org.tareline.site.Figure;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.units.MassStyle;

/** The parts of a ledger as a table and as a file, and the few that fit some letters. */
@Controller
class PartsController {

  private static final int MOST_SUGGESTIONS = 12;
  private static final int MOST_NAMED = 6;

  /**
   * What was asked for, as typed; what makes no sense is taken as not asked.
   *
   * @param waiting whether only those not weighed yet are asked for
   * @param total whether all are to be added up, however many
   */
  record Asked(
      @Nullable String text,
      @Nullable String system,
      @Nullable String waiting,
      @Nullable String sort,
      @Nullable String order,
      @Nullable String page,
      @Nullable String total) {

    String words() {
      return text == null ? "" : text.strip();
    }

    @Nullable GearSystem gearSystem() {
      return system == null ? null : GearSystem.of(system).orElse(null);
    }

    boolean notWeighed() {
      return waiting != null;
    }

    public boolean filtered() {
      return !words().isEmpty() || gearSystem() != null || notWeighed();
    }

    Column column() {
      return Column.of(sort);
    }

    boolean descending() {
      return "descending".equals(order);
    }

    int pageOf(int pages) {
      return page != null && page.matches("[1-9][0-9]{0,5}")
          ? Math.min(Integer.parseInt(page), pages)
          : 1;
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

  record Row(
      String code,
      String name,
      @Nullable Figure each,
      String owned,
      @Nullable Figure together,
      boolean tooMuch,
      String system,
      String basis,
      String weighed) {}

  /**
   * The foot of the table, over all rows of all pages.
   *
   * @param figure null where it is more than can be added up, or was not added up
   * @param addUp the address that adds it up; null where that was done
   * @param missing says what is not in it; null where nothing is missing
   * @param note says why it is not what the rows shown add up to; null where it is
   */
  record Total(
      String label,
      @Nullable Figure figure,
      @Nullable String missing,
      @Nullable String note,
      @Nullable String addUp) {}

  record Page(
      Asked asked,
      String caption,
      List<Head> heads,
      List<Row> rows,
      Total total,
      List<Choice> systems,
      String csv,
      String safeCells,
      @Nullable String before,
      @Nullable String after,
      boolean noneAtAll) {}

  record Suggestion(String code, String name, String aside) {}

  private final Parts parts;
  private final Moments moments;
  private final WorthAsking worthAsking;

  PartsController(Parts parts, Moments moments, WorthAsking worthAsking) {
    this.parts = parts;
    this.moments = moments;
    this.worthAsking = worthAsking;
  }

  @GetMapping("/parts")
  String parts(Member member, @ModelAttribute("asked") Asked asked, Model model) {
    List<Parts.Listed> all = parts.listed(member);
    PartTable table = table(member, all, asked, asked.total() != null);
    int pages = table.pages();
    int page = asked.pageOf(pages);
    List<Line> lines = table.page(page);
    model.addAttribute("questions", worthAsking.questions(member));
    model.addAttribute(
        "page",
        new Page(
            asked,
            caption(all.size(), table.size(), page, pages, asked),
            heads(asked, member.massStyle()),
            rows(lines, member.massStyle()),
            table.addedUp()
                ? total(table, lines, member.massStyle())
                : new Total(
                    allOwned(table),
                    null,
                    null,
                    null,
                    address("/parts", asked, asked.column(), asked.descending(), page, true)),
            systems(),
            address("/parts.csv", asked, asked.column(), asked.descending(), 1, false),
            CsvTable.SAFE_CELLS,
            page > 1 ? pageAddress(asked, page - 1) : null,
            page < pages ? pageAddress(asked, page + 1) : null,
            all.isEmpty()));
    return "part/parts";
  }

  @GetMapping("/parts.csv")
  ResponseEntity<byte[]> file(Member member, @ModelAttribute("asked") Asked asked) {
    return table(member, parts.listed(member), asked, true).csv().asFile("parts.csv");
  }

  /** For type-ahead: the few that fit what was typed so far, best first. */
  @GetMapping("/parts/suggestions")
  @ResponseBody
  List<Suggestion> suggestions(Member member, @RequestParam(defaultValue = "") String text) {
    List<Part> found = parts.search(member, text, MOST_SUGGESTIONS);
    Map<Long, PartMass> masses = parts.masses(member, found);
    return found.stream()
        .map(
            part ->
                new Suggestion(
                    part.code(),
                    part.name(),
                    masses.getOrDefault(part.id(), PartMass.UNKNOWN).words(member.massStyle())))
        .toList();
  }

  private PartTable table(Member member, List<Parts.Listed> all, Asked asked, boolean addedUp) {
    return PartTable.of(
        all,
        ids -> parts.massesByIds(member, ids),
        asked.words(),
        asked.gearSystem(),
        asked.notWeighed(),
        asked.column(),
        asked.descending(),
        addedUp);
  }

  private static String caption(int all, int found, int page, int pages, Asked asked) {
    StringBuilder words = new StringBuilder();
    words.append(found);
    if (asked.filtered()) {
      words.append(" of ").append(all);
    }
    words.append(all == 1 ? " part" : " parts");
    List<String> which = new ArrayList<>();
    if (!asked.words().isEmpty()) {
      which.add("holding “" + asked.words() + "”");
    }
    GearSystem system = asked.gearSystem();
    if (system != null) {
      which.add("for " + system.pageWords());
    }
    if (asked.notWeighed()) {
      which.add("not weighed yet");
    }
    if (!which.isEmpty()) {
      words.append(" ").append(String.join(", ", which));
    }
    if (pages > 1) {
      words
          .append(", rows ")
          .append((page - 1) * PartTable.PAGE + 1)
          .append(" to ")
          .append(Math.min(page * PartTable.PAGE, found));
    }
    return words.append("; mass of one and of all that are owned, ± at 95 %").toString();
  }

  private static List<Head> heads(Asked asked, MassStyle style) {
    return List.of(
        head(asked, Column.CODE, null, "Code", ""),
        head(asked, Column.NAME, null, "Name", ""),
        head(asked, Column.MASS, null, "One, " + style.heading(), "mass"),
        head(asked, Column.UNCERTAINTY, "Uncertainty of one, ", "±", "mass mass--u"),
        head(asked, Column.OWNED, null, "Owned", "number"),
        head(asked, Column.TOGETHER, null, "All owned, " + style.heading(), "mass"),
        head(asked, Column.TOGETHER_UNCERTAINTY, "Uncertainty of all owned, ", "±", "mass mass--u"),
        head(asked, Column.SYSTEM, null, "For", ""),
        head(asked, Column.BASIS, null, "Mass is", ""),
        head(asked, Column.WEIGHED, null, "Last weighed", ""));
  }

  private static Head head(
      Asked asked, Column column, @Nullable String heard, String label, String look) {
    boolean sorted = asked.column() == column;
    boolean descending = sorted ? !asked.descending() : column.descendingFirst();
    return new Head(
        heard,
        label,
        look,
        address("/parts", asked, column, descending, 1, asked.total() != null),
        sorted ? asked.descending() ? "descending" : "ascending" : null);
  }

  private static String pageAddress(Asked asked, int page) {
    return address(
        "/parts", asked, asked.column(), asked.descending(), page, asked.total() != null);
  }

  /** An address that carries along all that was asked for. */
  private static String address(
      String path, Asked asked, Column column, boolean descending, int page, boolean total) {
    UriComponentsBuilder address = UriComponentsBuilder.fromPath(path);
    if (!asked.words().isEmpty()) {
      address.queryParam("text", "{text}");
    }
    GearSystem system = asked.gearSystem();
    if (system != null) {
      address.queryParam("system", system.word());
    }
    if (asked.notWeighed()) {
      address.queryParam("waiting", "on");
    }
    if (column != Column.CODE || descending) {
      address
          .queryParam("sort", column.word())
          .queryParam("order", descending ? "descending" : "ascending");
    }
    if (page > 1) {
      address.queryParam("page", page);
    }
    if (total) {
      address.queryParam("total", "on");
    }
    return address.encode().build(Map.of("text", asked.words())).toString();
  }

  private List<Row> rows(List<Line> lines, MassStyle style) {
    List<@Nullable Estimate> each = new ArrayList<>();
    List<@Nullable Estimate> together = new ArrayList<>();
    for (Line line : lines) {
      each.add(line.mass().estimate());
      together.add(line.together());
    }
    int decimals = Figure.decimals(each, style);
    int togetherDecimals = Figure.decimals(together, style);
    return lines.stream().map(line -> row(line, style, decimals, togetherDecimals)).toList();
  }

  private Row row(Line line, MassStyle style, int decimals, int togetherDecimals) {
    Estimate mass = line.mass().estimate();
    Estimate all = line.together();
    Figure each = Figure.orNull(mass, style, decimals);
    return new Row(
        line.part().code(),
        line.part().name(),
        each,
        String.valueOf(line.part().owned()),
        all == mass && decimals == togetherDecimals
            ? each
            : Figure.orNull(all, style, togetherDecimals),
        mass != null && all == null,
        line.part().system().pageWords(),
        line.mass().basis() == null ? "not known" : line.mass().basis().pageWords(),
        line.weighedAt() == null ? "" : moments.day(line.weighedAt()));
  }

  private static String allOwned(PartTable table) {
    return "All " + table.owned() + " owned";
  }

  private static Total total(PartTable table, List<Line> lines, MassStyle style) {
    List<Parts.Listed> missing = table.missing();
    Estimate total = table.total();
    List<Estimate> shown = lines.stream().map(Line::together).filter(Objects::nonNull).toList();
    int decimals = Figure.decimals(shown, style);
    String names =
        missing.stream().limit(MOST_NAMED).map(Parts.Listed::code).collect(Collectors.joining(", "))
            + (missing.size() > MOST_NAMED
                ? " and " + (missing.size() - MOST_NAMED) + " more"
                : "");
    return new Total(
        allOwned(table) + (missing.isEmpty() ? "" : ", at least"),
        total == null ? null : Figure.of(total, style, decimals),
        missing.isEmpty()
            ? null
            : "Not in the total, for nothing is known of their mass yet: " + names + ".",
        total == null ? null : note(table, shown, total, decimals, style),
        null);
  }

  private static @Nullable String note(
      PartTable table, List<Estimate> shown, Estimate total, int decimals, MassStyle style) {
    if (table.pages() > 1) {
      return "The total is over all " + table.size() + " rows, exactly, and rounded once.";
    }
    return style.addsUp(shown.stream().map(Estimate::value).toList(), total.value(), decimals)
        ? null
        : "Rows are rounded one by one and do not add up in the last digit; the total is over all "
            + "of them, exactly, and rounded once.";
  }

  static List<Choice> systems() {
    return Arrays.stream(GearSystem.values())
        .map(system -> new Choice(system.word(), system.pageWords()))
        .toList();
  }
}
