package org.tareline.exchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.Field.Kind;

/**
 * A table of a ledger and its file.
 *
 * @param key the columns that tell its rows apart within a ledger
 * @param holder the column with the thing whose part a row is, and which it changes with; null of
 *     what stands for itself
 * @param heldAs what the holder calls its rows in the fields of a form; null where it does not
 *     count them
 * @param numbered whether its rows have an id of the database's own
 * @param order the columns that its rows stand in order of; never left to how a database sorts text
 */
record Table(
    String name,
    String file,
    List<Field> fields,
    List<String> key,
    @Nullable String holder,
    @Nullable String heldAs,
    boolean numbered,
    List<String> order) {

  /** The column with the ledger that a row belongs to. */
  String ledgerColumn() {
    return name.equals("ledger") ? "id" : "ledger_id";
  }

  boolean hasUuid() {
    return key.equals(List.of("uuid"));
  }

  boolean hasCode() {
    return keepsCodeKey() && numbered;
  }

  /** Whether its rows stand there by a code, with or without an id of their own. */
  boolean keepsCodeKey() {
    return fields.stream().anyMatch(field -> field.kind() == Kind.CODE);
  }

  /** The table of what holds its rows. */
  Table holderTable() {
    return LedgerTables.named(String.valueOf(fields.get(index(String.valueOf(holder))).of()));
  }

  /** The columns that count the saves of a thing that may change; none of what may not. */
  List<String> revisions() {
    return holder == null && (hasUuid() || name.equals("ledger"))
        ? fields.stream().map(Field::column).filter(column -> column.endsWith("revision")).toList()
        : List.of();
  }

  boolean has(String column) {
    return fields.stream().anyMatch(field -> field.column().equals(column));
  }

  int index(String column) {
    for (int i = 0; i < fields.size(); i++) {
      if (fields.get(i).column().equals(column)) {
        return i;
      }
    }
    throw new IllegalArgumentException(name + " has no " + column);
  }

  /** A table under construction; the columns stand in its file in the order of the calls. */
  static final class Builder {

    private final String name;
    private final String file;
    private final List<Field> fields = new ArrayList<>();
    private List<String> key = List.of("uuid");
    private @Nullable String holder;
    private @Nullable String heldAs;
    private boolean numbered = true;
    private List<String> order = List.of("id");

    Builder(String name, String file) {
      this.name = name;
      this.file = file;
    }

    Builder add(String column, String heading, Kind kind, @Nullable String of, String... words) {
      fields.add(new Field(column, heading, kind, of, Set.of(words), null));
      return this;
    }

    /** Text that is read anew each time that it is used. */
    Builder read(Consumer<String> reader, String... columns) {
      for (String column : columns) {
        fields.add(new Field(column, heading(column), Kind.TEXT, null, Set.of(), reader));
      }
      return this;
    }

    private static String heading(String column) {
      return column.replaceFirst("_(typed|id|ng|nm|ml)$", "").replace('_', '-');
    }

    /** Its id in every copy of the ledger. */
    Builder uuid() {
      return add("uuid", "id", Kind.UUID, null);
    }

    /** A code, and beside it the form by which it is found, which is in no file. */
    Builder code() {
      return add("code", "code", Kind.CODE, null);
    }

    Builder text(String... columns) {
      Arrays.stream(columns).forEach(column -> add(column, heading(column), Kind.TEXT, null));
      return this;
    }

    Builder typed(String column) {
      return typed(column, heading(column));
    }

    Builder typed(String column, String heading) {
      return add(column, heading, Kind.TYPED, null);
    }

    Builder percent(String... columns) {
      Arrays.stream(columns).forEach(column -> add(column, heading(column), Kind.PERCENT, null));
      return this;
    }

    Builder words(String column, String... words) {
      return add(column, heading(column), Kind.TEXT, null, words);
    }

    Builder mass(String column) {
      return add(column, heading(column) + " [g]", Kind.MASS, null);
    }

    Builder length(String column) {
      return add(column, heading(column) + " [mm]", Kind.LENGTH, null);
    }

    /** An exact mass and beside it what was typed: {@code stated_ng} and {@code stated_typed}. */
    Builder massTyped(String name) {
      return mass(name + "_ng").typed(name + "_typed");
    }

    Builder lengthTyped(String name) {
      return length(name + "_nm").typed(name + "_typed");
    }

    Builder decimal(String column, String unit) {
      return add(column, heading(column) + unit, Kind.DECIMAL, null);
    }

    Builder whole(String... columns) {
      Arrays.stream(columns).forEach(column -> add(column, heading(column), Kind.WHOLE, null));
      return this;
    }

    Builder real(String... columns) {
      Arrays.stream(columns).forEach(column -> add(column, heading(column), Kind.REAL, null));
      return this;
    }

    Builder yesNo(String column) {
      return add(column, heading(column), Kind.YES_NO, null);
    }

    Builder instant(String... columns) {
      Arrays.stream(columns).forEach(column -> add(column, heading(column), Kind.INSTANT, null));
      return this;
    }

    Builder day(String column) {
      return add(column, heading(column), Kind.DAY, null);
    }

    /** The id that something has in every copy of the ledger, of whatever table. */
    Builder idOf(String column) {
      return add(column, heading(column).replaceFirst("-uuid$", ""), Kind.UUID, null);
    }

    Builder refers(String column, String table) {
      return add(column, heading(column), Kind.REFERENCE, table);
    }

    /** Something of the kind that the column before says. */
    Builder subject() {
      return add("subject_id", "subject", Kind.SUBJECT, null);
    }

    Builder person(String column) {
      return add(column, heading(column), Kind.PERSON, null);
    }

    Builder state(String column) {
      return add(column, heading(column), Kind.STATE, null);
    }

    Builder heldBy(String column) {
      holder = column;
      return this;
    }

    /** As such a list of its holder, in the order of its positions. */
    Builder heldBy(String column, String as) {
      heldAs = as;
      return heldBy(column);
    }

    Builder key(String... columns) {
      key = List.of(columns);
      return this;
    }

    /** For a table without an id of the database's own. */
    Builder inOrderOf(String... columns) {
      numbered = false;
      order = List.of(columns);
      return this;
    }

    /** In another order than rows were added in, where changing a thing writes them anew. */
    Builder sortedBy(String... columns) {
      order = List.of(columns);
      return this;
    }

    Table done() {
      return new Table(name, file, List.copyOf(fields), key, holder, heldAs, numbered, order);
    }
  }
}
