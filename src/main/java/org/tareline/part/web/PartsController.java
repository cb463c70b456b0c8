package org.tareline.part.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
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
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.part.WorthAsking;
import org.tareline.part.web.PartTable.Line;
import org.tareline.site.Figure;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.TableAsked;
import org.tareline.site.TableOrder;
import org.tareline.site.TableOrder.Head;
import org.tareline.units.MassStyle;

/** The parts of a ledger as a table and as a file, and the few that fit some letters. */
@Controller
class PartsController {

  private static final int MOST_SUGGESTIONS = 12;
  private static final int MOST_NAMED = 6;

  /**
   * What else was asked for, as typed; what makes no sense is taken as not asked.
   *
   * @param waiting whether only those not weighed yet are asked for
   * @param total whether all are to be added up, however many
   */
  record Filter(
      @Nullable String system,
      @Nullable String waiting,
      @Nullable String page,
      @Nullable String total) {

    @Nullable GearSystem gearSystem() {
      return system == null ? null : GearSystem.of(system).orElse(null);
    }

    boolean notWeighed() {
      return waiting != null;
    }

    boolean filters() {
      return gearSystem() != null || notWeighed();
    }

    int pageOf(int pages) {
      return page != null && page.matches("[1-9][0-9]{0,5}")
          ? Math.min(Integer.parseInt(page), pages)
          : 1;
    }

    /** As an address says it. */
    Map<String, String> said(int page, boolean total) {
      Map<String, String> said = new LinkedHashMap<>();
      GearSystem only = gearSystem();
      if (only != null) {
        said.put("system", only.word());
      }
      if (notWeighed()) {
        said.put("waiting", "on");
      }
      if (page > 1) {
        said.put("page", String.valueOf(page));
      }
      if (total) {
        said.put("total", "on");
      }
      return said;
    }
  }

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
      TableAsked asked,
      Filter filter,
      boolean filtered,
      String caption,
      List<Head> heads,
      List<Row> rows,
      Total total,
      List<Choice> systems,
      String csv,
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
  String parts(
      Member member,
      @ModelAttribute("asked") TableAsked asked,
      @ModelAttribute("filter") Filter filter,
      Model model) {
    MassStyle style = member.massStyle();
    List<Parts.Listed> all = parts.listed(member);
    TableOrder<Line> order = new TableOrder<>(asked, PartTable.columns(style));
    boolean addUp = filter.total() != null;
    PartTable table = table(member, all, asked, filter, order, addUp);
    int pages = table.pages();
    int page = filter.pageOf(pages);
    List<Line> lines = table.page(page);
    model.addAttribute("questions", worthAsking.questions(member));
    model.addAttribute(
        "page",
        new Page(
            asked,
            filter,
            asked.filtered() || filter.filters(),
            caption(all.size(), table.size(), page, pages, asked, filter),
            order.heads("/parts", filter.said(1, addUp)),
            rows(lines, style),
            table.addedUp()
                ? total(table, lines, style)
                : new Total(
                    allOwned(table),
                    null,
                    null,
                    null,
                    order.address("/parts", filter.said(page, true))),
            systems(),
            order.address("/parts.csv", filter.said(1, false)),
            page > 1 ? order.address("/parts", filter.said(page - 1, addUp)) : null,
            page < pages ? order.address("/parts", filter.said(page + 1, addUp)) : null,
            all.isEmpty()));
    return "part/parts";
  }

  @GetMapping("/parts.csv")
  ResponseEntity<byte[]> file(
      Member member,
      @ModelAttribute("asked") TableAsked asked,
      @ModelAttribute("filter") Filter filter) {
    TableOrder<Line> order = new TableOrder<>(asked, PartTable.columns(member.massStyle()));
    return table(member, parts.listed(member), asked, filter, order, true)
        .csv()
        .asFile("parts.csv");
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

  private PartTable table(
      Member member,
      List<Parts.Listed> all,
      TableAsked asked,
      Filter filter,
      TableOrder<Line> order,
      boolean addedUp) {
    return PartTable.of(
        all,
        ids -> parts.massesByIds(member, ids),
        asked,
        filter.gearSystem(),
        filter.notWeighed(),
        order,
        addedUp);
  }

  private static String caption(
      int all, int found, int page, int pages, TableAsked asked, Filter filter) {
    StringBuilder words =
        new StringBuilder(asked.found(found, all, "part", asked.filtered() || filter.filters()));
    List<String> which = new ArrayList<>();
    GearSystem system = filter.gearSystem();
    if (system != null) {
      which.add("for " + system.pageWords());
    }
    if (filter.notWeighed()) {
      which.add("not weighed yet");
    }
    if (!which.isEmpty()) {
      words.append(asked.filtered() ? ", " : " ").append(String.join(", ", which));
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
