package org.tareline.exchange.web;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.exchange.BadRow;
import org.tareline.exchange.PlainImport;
import org.tareline.exchange.PlainImport.Column;
import org.tareline.exchange.PlainImport.Outcome;
import org.tareline.ledger.Member;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.units.DecimalMark;

/**
 * A table of somebody's own, taken in by steps without a script: the table, what its columns are,
 * how it is understood, done. Each step carries all of the ones before.
 */
@Controller
class TableController {

  /** The most rows of a preview that are shown. */
  private static final int SHOWN = 50;

  private static final int PROBLEMS_SHOWN = 200;

  private static final List<Choice> UNITS =
      List.of(
          new Choice("", "as written"),
          new Choice("g", "grams"),
          new Choice("kg", "kilograms"),
          new Choice("oz", "ounces"),
          new Choice("lb", "pounds"),
          new Choice("gr", "grains"));

  /** A column in the second step. */
  record ColumnField(
      String name, String heading, String examples, String says, String unitName, String unit) {}

  /**
   * The page.
   *
   * @param columns none in the first step
   * @param preview how it is understood; null until somebody asked
   * @param ready whether it can be taken in
   */
  record Page(
      boolean parts,
      String text,
      List<ColumnField> columns,
      List<Choice> meanings,
      List<Choice> units,
      boolean comma,
      String scale,
      String tolerance,
      @Nullable Outcome preview,
      List<PlainImport.Understood> rows,
      List<BadRow> problems,
      @Nullable String verdict,
      boolean ready) {}

  private final PlainImport imports;

  TableController(PlainImport imports) {
    this.imports = imports;
  }

  @GetMapping("/exchange/table")
  String table(Member member, Model model) {
    model.addAttribute("page", page("parts", "", List.of(), null, null));
    return "exchange/table";
  }

  /** The first step done: what the columns seem to be. */
  @PostMapping("/exchange/table")
  String columns(
      Member member,
      @RequestParam(defaultValue = "parts") String things,
      @RequestParam(defaultValue = "") String text,
      @RequestParam(required = false) @Nullable MultipartFile file,
      Model model)
      throws IOException {
    String table = text;
    try {
      if (file != null && !file.isEmpty()) {
        table = decoded(file);
      }
      model.addAttribute(
          "page",
          page(things, table, fields(PlainImport.columns(things, table), null), null, null));
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      model.addAttribute("page", page(safe(things), text, List.of(), null, null));
    }
    return "exchange/table";
  }

  private static String decoded(MultipartFile file) throws IOException {
    PlainImport.refuseIfTooLong(file.getSize());
    try {
      String text =
          StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(file.getBytes())).toString();
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException notText) {
      throw Refusal.badInput("file", "The file is not text in UTF-8: save it as CSV in UTF-8.");
    }
  }

  /** The steps after: how it is understood, and at last that it be taken in. */
  @PostMapping("/exchange/table/rows")
  Object rows(
      Member member,
      @RequestParam MultiValueMap<String, String> typed,
      Model model,
      HttpServletResponse response,
      RedirectAttributes flash) {
    String things = first(typed, "things");
    String text = first(typed, "text");
    List<ColumnField> fields = List.of();
    try {
      fields = fields(PlainImport.columns(things, text), typed);
      PlainImport.Entry entry =
          new PlainImport.Entry(
              things,
              text,
              List.copyOf(fields.stream().map(ColumnField::says).toList()),
              List.copyOf(fields.stream().map(ColumnField::unit).toList()),
              typed.containsKey("comma") ? DecimalMark.COMMA : DecimalMark.POINT,
              first(typed, "scale"),
              first(typed, "tolerance"));
      boolean take = first(typed, "step").equals("take");
      Outcome outcome = imports.takeIn(member, entry, !take);
      if (take && outcome.good()) {
        flash.addFlashAttribute(
            "done",
            outcome.rows().size() == 1
                ? "One row was taken in."
                : outcome.rows().size() + " rows were taken in.");
        return SeeOther.page("/exchange");
      }
      if (!outcome.good()) {
        response.setStatus(422);
      }
      model.addAttribute("page", page(things, text, fields, typed, outcome));
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      model.addAttribute("page", page(safe(things), text, fields, typed, null));
    }
    return "exchange/table";
  }

  private static String first(MultiValueMap<String, String> typed, String name) {
    String value = typed.getFirst(name);
    return value == null ? "" : value;
  }

  private static String safe(String things) {
    return things.equals("weighings") ? things : "parts";
  }

  private static List<ColumnField> fields(
      List<Column> columns, @Nullable MultiValueMap<String, String> typed) {
    List<ColumnField> fields = new ArrayList<>();
    for (int i = 0; i < columns.size(); i++) {
      Column column = columns.get(i);
      String says = "columns[" + i + "]";
      String unit = "units[" + i + "]";
      fields.add(
          new ColumnField(
              says,
              column.heading().isEmpty() ? "Column " + (i + 1) : column.heading(),
              String.join(" · ", column.examples().stream().filter(one -> !one.isEmpty()).toList()),
              typed == null ? column.says() : first(typed, says),
              unit,
              typed == null ? column.unit() : first(typed, unit)));
    }
    return fields;
  }

  private static Page page(
      String things,
      String text,
      List<ColumnField> columns,
      @Nullable MultiValueMap<String, String> typed,
      @Nullable Outcome outcome) {
    List<Choice> meanings = new ArrayList<>(List.of(new Choice("", "leave it out")));
    PlainImport.meanings(things)
        .forEach(meaning -> meanings.add(new Choice(meaning.word(), meaning.words())));
    return new Page(
        things.equals("parts"),
        text,
        columns,
        meanings,
        UNITS,
        typed != null && typed.containsKey("comma"),
        typed == null ? "" : first(typed, "scale"),
        typed == null ? "" : first(typed, "tolerance"),
        outcome,
        outcome == null
            ? List.of()
            : outcome.rows().subList(0, Math.min(SHOWN, outcome.rows().size())),
        outcome == null
            ? List.of()
            : outcome.problems().subList(0, Math.min(PROBLEMS_SHOWN, outcome.problems().size())),
        outcome == null ? null : verdict(outcome),
        outcome != null && outcome.good());
  }

  private static String verdict(Outcome outcome) {
    if (!outcome.good()) {
      return (outcome.problems().size() == 1
              ? "One thing stands in the way."
              : outcome.problems().size() + " things stand in the way.")
          + " Nothing was written.";
    }
    int rows = outcome.rows().size();
    return "Every row was understood. "
        + (rows == 1 ? "One would" : rows + " would")
        + " be taken in"
        + (rows > SHOWN ? "; the first " + SHOWN + " are shown." : ".");
  }
}
