package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.HeldLine;
import org.tareline.rig.Rig;
import org.tareline.site.FormFields;

/**
 * A rig as typed.
 *
 * @param revision the one that the change started from; null for a new rig
 */
record RigForm(
    @Nullable String code,
    @Nullable String name,
    @Nullable String note,
    @Nullable String revision,
    @Nullable List<@Nullable LineForm> lines) {

  private static final int SPARE = 3;
  private static final int MORE = 6;

  /**
   * A line as typed.
   *
   * @param id of the line it was; empty for a new one
   * @param thing a part or a rig, by its code or what else tells it
   * @param out anything, if the line is to be taken out
   */
  record LineForm(
      @Nullable String id,
      @Nullable String thing,
      @Nullable String quantity,
      @Nullable String role,
      @Nullable String out) {

    static LineForm spare() {
      return new LineForm("", "", "", "", null);
    }

    static LineForm of(HeldLine line, String typed) {
      return new LineForm(
          line.id().toString(), typed, String.valueOf(line.quantity()), line.role(), null);
    }

    public boolean known() {
      return id != null && !id.isBlank();
    }

    /** Whether it says that there is no line: never filled in, or taken out. */
    boolean empty() {
      return out != null || !known() && blank(thing) && blank(quantity) && blank(role);
    }

    private static boolean blank(@Nullable String text) {
      return text == null || text.isBlank();
    }
  }

  static RigForm empty() {
    return new RigForm("", "", "", null, List.of()).withSpareLines();
  }

  static RigForm of(Rig rig, List<HeldLine> lines, List<String> typed) {
    List<@Nullable LineForm> rows = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      rows.add(LineForm.of(lines.get(i), typed.get(i)));
    }
    return new RigForm(
        rig.code(), rig.name(), rig.note().orElse(""), String.valueOf(rig.revision()), rows);
  }

  /** The rows that were sent, in their order. */
  List<LineForm> rows() {
    List<LineForm> rows = new ArrayList<>();
    if (lines != null) {
      for (LineForm line : lines) {
        rows.add(line == null ? LineForm.spare() : line);
      }
    }
    return rows;
  }

  /** With a few empty rows at the end, for whoever has no scripts to add more. */
  RigForm withSpareLines() {
    List<@Nullable LineForm> rows = new ArrayList<>(rows());
    int spare = 0;
    for (int i = rows.size() - 1; i >= 0 && spare < SPARE; i--) {
      LineForm row = rows.get(i);
      if (row == null || row.out() != null || !row.empty()) {
        break;
      }
      spare++;
    }
    for (; spare < SPARE; spare++) {
      rows.add(LineForm.spare());
    }
    return new RigForm(code, name, note, revision, rows);
  }

  /** With more empty rows. */
  RigForm withMoreLines() {
    List<@Nullable LineForm> rows = new ArrayList<>(rows());
    for (int i = 0; i < MORE; i++) {
      rows.add(LineForm.spare());
    }
    return new RigForm(code, name, note, revision, rows);
  }

  /**
   * What was typed, as a change of another revision: a line that is gone from it becomes a new one.
   */
  RigForm from(Rig now, List<HeldLine> standing) {
    Set<String> ids = new HashSet<>();
    standing.forEach(line -> ids.add(line.id().toString()));
    List<@Nullable LineForm> rows = new ArrayList<>();
    for (LineForm row : rows()) {
      boolean gone = row.known() && !ids.contains(row.id());
      rows.add(gone ? new LineForm("", row.thing(), row.quantity(), row.role(), row.out()) : row);
    }
    return new RigForm(code, name, note, String.valueOf(now.revision()), rows);
  }

  /** The revision named, or one that there never is. */
  int expected() {
    return FormFields.revision(revision);
  }
}
