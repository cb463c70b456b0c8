package org.tareline.part.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Calculation;
import org.tareline.part.CutForm;
import org.tareline.part.CutLine;
import org.tareline.part.CutSize;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.FormFields;

/**
 * A cut list as typed.
 *
 * @param revision of the part that the change started from
 */
record CutListForm(String cuttingTolerance, String revision, List<Line> lines) {

  private static final Pattern FIELD = Pattern.compile("lines\\[(\\d{1,4})]\\.(\\w{1,30})");
  private static final int MOST_LINES = 300;

  /**
   * A line as typed. Its form is chosen before anything is typed in it, and says which sizes it
   * has.
   *
   * @param id of a line that is there; empty of a new one
   * @param sizes as typed, of those that the form has
   * @param out whether it is to be taken out
   */
  record Line(
      String id,
      CutForm form,
      String name,
      String material,
      String quantity,
      boolean removed,
      Map<CutSize, String> sizes,
      boolean out) {

    static Line empty(CutForm form) {
      return new Line("", form, "", "", "", false, Map.of(), false);
    }

    /** What a size is called, whether it is wanted, and what stands in it. */
    record Field(String word, String label, String hint, String typed) {}

    public List<Field> fields() {
      return Arrays.stream(CutSize.values())
          .filter(form::has)
          .map(
              size ->
                  new Field(
                      size.word(),
                      Words.of(size),
                      (form.wanted().contains(size) ? "" : "may be left out; ") + size.example(),
                      sizes.getOrDefault(size, "")))
          .toList();
    }
  }

  static CutListForm of(Part part, @Nullable Calculation calculation) {
    List<Line> lines = new ArrayList<>();
    if (calculation != null) {
      calculation
          .lines()
          .forEach(
              line -> {
                CutLine cut = line.line();
                lines.add(
                    new Line(
                        cut.uuid().toString(),
                        cut.form(),
                        cut.name().orElse(""),
                        line.material().code(),
                        String.valueOf(cut.quantity()),
                        cut.removed(),
                        cut.typed(),
                        false));
              });
    }
    return new CutListForm(
        part.cuttingToleranceTyped().orElse(""), String.valueOf(part.revision()), lines);
  }

  /** What was sent; a line whose form is not known is left out. */
  static CutListForm of(Map<String, String> sent) {
    Map<Integer, Map<String, String>> rows = new TreeMap<>();
    sent.forEach(
        (name, typed) -> {
          Matcher field = FIELD.matcher(name);
          if (field.matches() && rows.size() < MOST_LINES) {
            rows.computeIfAbsent(Integer.valueOf(field.group(1)), any -> new TreeMap<>())
                .put(field.group(2), typed);
          }
        });
    List<Line> lines = new ArrayList<>();
    for (Map<String, String> row : rows.values()) {
      CutForm form = form(row.getOrDefault("form", ""));
      if (form != null) {
        Map<CutSize, String> sizes = new EnumMap<>(CutSize.class);
        for (CutSize size : CutSize.values()) {
          if (form.has(size) && row.containsKey(size.word())) {
            sizes.put(size, row.getOrDefault(size.word(), ""));
          }
        }
        lines.add(
            new Line(
                row.getOrDefault("id", ""),
                form,
                row.getOrDefault("name", ""),
                row.getOrDefault("material", ""),
                row.getOrDefault("quantity", ""),
                row.containsKey("removed"),
                sizes,
                row.containsKey("out")));
      }
    }
    return new CutListForm(
        sent.getOrDefault("cuttingTolerance", ""), sent.getOrDefault("revision", ""), lines);
  }

  /** The form of a name; nothing where there is none. */
  static @Nullable CutForm form(String name) {
    return Arrays.stream(CutForm.values())
        .filter(form -> form.name().equals(name))
        .findFirst()
        .orElse(null);
  }

  CutListForm with(CutForm more) {
    List<Line> all = new ArrayList<>(lines);
    all.add(Line.empty(more));
    return new CutListForm(cuttingTolerance, revision, all);
  }

  /** Without the lines that are to be taken out. */
  CutListForm kept() {
    return new CutListForm(
        cuttingTolerance, revision, lines.stream().filter(line -> !line.out()).toList());
  }

  /** The revision named, or one that there never is. */
  int expected() {
    return FormFields.revision(revision);
  }

  Parts.SheetEntry entry() {
    List<Parts.@Nullable CutEntry> entries = new ArrayList<>();
    for (Line line : lines) {
      Map<CutSize, @Nullable String> sizes = new EnumMap<>(CutSize.class);
      line.sizes().forEach(sizes::put);
      sizes.values().removeIf(typed -> typed == null || typed.isBlank());
      entries.add(
          new Parts.CutEntry(
              line.id().isEmpty() ? null : line.id(),
              line.name(),
              line.form().kind(),
              line.form().shape().orElse(null),
              line.material(),
              line.quantity(),
              line.removed(),
              null,
              sizes));
    }
    return new Parts.SheetEntry(cuttingTolerance, entries);
  }
}
