package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Savepoint;
import java.time.OffsetDateTime;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVFormat;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.Field.Kind;
import org.tareline.exchange.Field.Unreadable;
import org.tareline.exchange.ImportReport.OfTable;
import org.tareline.exchange.StoredRows.Stored;
import org.tareline.ledger.Authors;
import org.tareline.ledger.Member;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.units.Mass;
import org.tareline.units.UnreadableQuantity;

/**
 * One taking in of the files of a ledger, within a transaction of the caller's. Every row is held
 * against the one that the ledger has already: the same is left alone; a thing that may change does
 * where the file has a later save of it; all else that differs is refused. Rows are written in
 * batches, and no more is kept in memory than which thing has which id.
 */
final class Intake {

  /** Rows written at once. */
  private static final int BATCH = 500;

  private static final int MOST_PROBLEMS = 200;

  /** As in a ledger that is typed: levels of rigs in rigs. */
  private static final int DEEPEST = 50;

  /** A row of a file, read. */
  private record Row(int line, List<String> cells, @Nullable Object[] values) {}

  /** A line of a rig with a rig in it. */
  private record Held(long rig, long inner) {}

  /**
   * What the database says of a column.
   *
   * @param longest characters; 0 of what is no text
   * @param optional may be empty
   * @param given may be left out, for it has something of its own then
   */
  private record Limits(int longest, boolean optional, boolean given) {}

  private final Connection connection;
  private final Member member;
  private final Authors authors;
  private final ImportProgress progress;
  private final StoredRows stored;
  private final OffsetDateTime now;

  private final List<BadRow> problems = new ArrayList<>();
  private int problemCount;
  private final List<OfTable> tables = new ArrayList<>();

  private final Map<String, Map<String, Long>> idsByKey = new HashMap<>();
  private final Map<String, Map<UUID, Long>> idsByUuid = new HashMap<>();
  private final Map<String, Set<String>> rejected = new HashMap<>();

  /** Rows that were in the ledger before, by table: those that stay and those that change. */
  private final Map<String, Set<Long>> standing = new HashMap<>();

  private final Map<String, Set<Long>> changing = new HashMap<>();

  /** Rows of changed things that the file has not named yet. */
  private final Map<String, Set<Long>> unseen = new LinkedHashMap<>();

  private final Map<String, Long> accounts = new HashMap<>();
  private final Map<Held, Integer> linesWithRigs = new HashMap<>();

  // Of the table that is being read.
  private Table table = LedgerTables.ALL.get(0);
  private List<Row> waiting = new ArrayList<>();
  private Set<Object> waitingKeys = new HashSet<>();
  private Set<String> before = new HashSet<>();
  private boolean hadRows;
  private boolean pristine;
  private List<Integer> present = List.of();
  private List<Integer> stampsLeftOut = List.of();
  private Map<String, Limits> limits = Map.of();
  private int added;
  private int changed;
  private int unchanged;
  private int refused;

  Intake(
      Connection connection,
      Member member,
      Authors authors,
      ImportProgress progress,
      OffsetDateTime now)
      throws SQLException {
    this.connection = connection;
    this.member = member;
    this.authors = authors;
    this.progress = progress;
    this.now = now;
    this.stored =
        new StoredRows(connection, member.ledgerId(), KeptStates.of(connection, member.ledgerId()));
  }

  /** Takes in all that the files have, and says what came of it. */
  ImportReport takeIn(LedgerFiles files, boolean dryRun) throws SQLException, IOException {
    pristine = isPristine();
    for (Table next : LedgerTables.ALL) {
      try (InputStream bytes = files.read(next.file())) {
        if (bytes != null) {
          progress.begin(next.file());
          takeIn(next, bytes, files.rowsOf(next.file()));
        }
      }
    }
    table = LedgerTables.named("rig_line");
    deleteUnseen();
    refuseCircles();
    return new ImportReport(dryRun, List.copyOf(tables), List.copyOf(problems), problemCount);
  }

  private boolean isPristine() throws SQLException {
    for (String each : List.of("scale", "material", "part", "weighing", "rig", "trip")) {
      if (hasRows(each)) {
        return false;
      }
    }
    return true;
  }

  private boolean hasRows(String name) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select 1 from "
                + name
                + " where "
                + (name.equals("ledger") ? "id" : "ledger_id")
                + " = ? fetch first 1 rows only")) {
      statement.setLong(1, member.ledgerId());
      try (ResultSet found = statement.executeQuery()) {
        return found.next();
      }
    }
  }

  private void takeIn(Table next, InputStream bytes, @Nullable Long rowsExpected)
      throws SQLException, IOException {
    table = next;
    waiting = new ArrayList<>();
    waitingKeys = new HashSet<>();
    before = new HashSet<>();
    hadRows = hasRows(table.name());
    limits = limits();
    added = 0;
    changed = 0;
    unchanged = 0;
    refused = 0;
    makeWay();
    long[] rows = {0};
    boolean[] begun = {false};
    boolean[] readable = {true};
    CsvRows.Broken broken =
        CsvRows.read(
            bytes,
            CSVFormat.RFC4180,
            (line, cells) -> {
              if (!begun[0]) {
                begun[0] = true;
                readable[0] = readHeader(line, cells);
              } else if (readable[0]) {
                rows[0]++;
                readRow(line, cells);
                progress.row();
              }
            });
    flush();
    if (broken != null) {
      note(broken.line(), "", broken.reason());
    } else if (readable[0] && rowsExpected != null && rowsExpected != rows[0]) {
      note(1, "", "The manifest says " + rowsExpected + " rows, and there are " + rows[0] + ".");
    }
    tables.add(new OfTable(table.file(), added, changed, unchanged, refused));
  }

  private Map<String, Limits> limits() throws SQLException {
    Map<String, Limits> all = new HashMap<>();
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select column_name, character_maximum_length, is_nullable, column_default from information_schema.columns"
                + " where lower(table_name) = ? and table_schema = current_schema")) {
      statement.setString(1, table.name());
      try (ResultSet found = statement.executeQuery()) {
        while (found.next()) {
          all.put(
              found.getString(1).toLowerCase(Locale.ROOT),
              new Limits(
                  (int) Math.min(found.getLong(2), Integer.MAX_VALUE),
                  found.getString(3).equals("YES"),
                  found.getString(4) != null));
        }
      }
    }
    return all;
  }

  private Limits limits(Field field) {
    return limits.getOrDefault(field.column(), new Limits(0, false, false));
  }

  /** Which column of the file stands where; whether the rows below can be read at all. */
  private boolean readHeader(int line, List<String> cells) {
    List<Integer> places = new ArrayList<>();
    boolean good = true;
    for (String heading : cells) {
      int at = -1;
      for (int i = 0; i < table.fields().size(); i++) {
        if (table.fields().get(i).heading().equals(heading)) {
          at = i;
        }
      }
      if (at < 0 || places.contains(at)) {
        note(
            line,
            Faults.shortened(heading),
            at < 0 ? "There is no such column in this file." : "This column is there twice.");
        good = false;
      }
      places.add(at);
    }
    for (int i = 0; i < table.fields().size(); i++) {
      Field field = table.fields().get(i);
      Limits limit = limits(field);
      if (!places.contains(i) && !limit.optional() && !limit.given() && !field.isStamp()) {
        note(line, field.heading(), "This column is missing.");
        good = false;
      }
    }
    present = places;
    stampsLeftOut =
        IntStream.range(0, table.fields().size())
            .filter(at -> table.fields().get(at).isStamp() && !places.contains(at))
            .boxed()
            .toList();
    return good;
  }

  private void readRow(int line, List<String> cells) {
    try {
      if (cells.size() != present.size()) {
        note(
            line,
            "",
            "The row has " + cells.size() + " cells and the header " + present.size() + ".");
        refused++;
        return;
      }
      int problemsBefore = problemCount;
      boolean namesRejected = false;
      @Nullable Object[] values = new Object[table.fields().size()];
      String[] written = new String[values.length];
      for (int i = 0; i < values.length; i++) {
        written[i] = "";
      }
      for (int i = 0; i < cells.size(); i++) {
        int at = present.get(i);
        Field field = table.fields().get(at);
        try {
          values[at] = read(field, cells.get(i));
          written[at] = field.write(values[at]);
        } catch (Unreadable unreadable) {
          note(line, field.heading(), unreadable.getMessage());
        }
      }
      for (int i = 0; i < values.length; i++) {
        Field field = table.fields().get(i);
        try {
          values[i] = resolve(field, values, i);
        } catch (NamesRejected mended) {
          namesRejected = true;
        } catch (Unreadable unreadable) {
          note(line, field.heading(), unreadable.getMessage());
        }
      }
      stamp(values);
      compareWithTyped(line, values);
      if (problemCount > problemsBefore || namesRejected) {
        refused++;
        reject(written);
        return;
      }
      Row row = new Row(line, List.of(written), values);
      if (table.hasUuid() || table.hasCode()) {
        Object key = keyOf(row);
        if (!waitingKeys.add(key) || inThisFile(row)) {
          note(
              line,
              table.hasCode() ? "code" : "id",
              "An earlier row of this file is the same thing.");
          refused++;
          return;
        }
      }
      waiting.add(row);
      if (waiting.size() >= BATCH) {
        flush();
      }
    } catch (SQLException broken) {
      throw new Broken(broken);
    }
  }

  /** Where the file leaves out who entered it and when, it is whoever takes it in, now. */
  private void stamp(@Nullable Object[] values) {
    for (int at : stampsLeftOut) {
      values[at] = table.fields().get(at).kind() == Kind.PERSON ? (Object) member.accountId() : now;
    }
  }

  /** A fault of the database on the way through a reader that knows of none. */
  static final class Broken extends RuntimeException {
    Broken(SQLException cause) {
      super(cause);
    }
  }

  /** The thing named is of a row that was refused: mending the one mends the other. */
  private static final class NamesRejected extends RuntimeException {
    NamesRejected() {
      super(null, null, false, false);
    }
  }

  private @Nullable Object read(Field field, String cell) {
    Object value = field.read(cell);
    Limits limit = limits(field);
    if (value == null && !limit.optional() && field.kind() != Kind.SUBJECT) {
      throw new Unreadable("This must not be empty.");
    }
    if (value instanceof String text && limit.longest() > 0 && !field.pointsElsewhere()) {
      if (text.length() > limit.longest()) {
        throw new Unreadable(
            "It has " + text.length() + " characters, and " + limit.longest() + " fit.");
      }
    }
    if (field.kind() == Kind.PERSON && value instanceof String name) {
      if (name.isBlank() || name.length() > 100) {
        throw new Unreadable("Give a name of 1 to 100 characters.");
      }
    }
    if (table.name().equals("ledger")
        && field.column().equals("design_factor")
        && value instanceof String factor
        && !factor.matches("[1-9][0-9]{0,2}(\\.[0-9]{1,6})?")) {
      throw new Unreadable("Give the design factor as a number from 1 to 100.");
    }
    return value;
  }

  private @Nullable Object resolve(Field field, @Nullable Object[] values, int at)
      throws SQLException {
    if (field.kind() == Kind.SUBJECT && "settings".equals(kind(values))) {
      // Those of the ledger itself, which no file names.
      return member.ledgerId();
    }
    if (!(values[at] instanceof String text)) {
      if (field.kind() == Kind.SUBJECT) {
        throw new Unreadable("This must not be empty.");
      }
      return values[at];
    }
    return switch (field.kind()) {
      case REFERENCE -> id(LedgerTables.named(String.valueOf(field.of())), text);
      case SUBJECT -> {
        String kind = kind(values);
        if (kind == null) {
          throw new NamesRejected();
        }
        yield id(LedgerTables.named(String.valueOf(LedgerTables.SUBJECTS.get(kind))), text);
      }
      case PERSON -> accounts.computeIfAbsent(text, name -> authors.named(member, name));
      case STATE -> KeptStates.byId(text, this::idOrNull);
      default -> text;
    };
  }

  private @Nullable String kind(@Nullable Object[] values) {
    return values[table.index("kind")] instanceof String kind ? kind : null;
  }

  private long id(Table of, String named) throws SQLException {
    String key = of.hasCode() ? Codes.key(named) : named.toLowerCase(Locale.ROOT);
    Long known = idsByKey.getOrDefault(of.name(), Map.of()).get(key);
    if (known == null && of == table && !waiting.isEmpty()) {
      flush();
      known = idsByKey.getOrDefault(of.name(), Map.of()).get(key);
    }
    if (known != null) {
      return known;
    }
    if (rejected.getOrDefault(of.name(), Set.of()).contains(key)) {
      throw new NamesRejected();
    }
    Long inLedger = inLedger(of, key);
    if (inLedger == null) {
      throw new Unreadable(
          "There is no "
              + of.name().replace('_', ' ')
              + " "
              + Faults.shortened(named)
              + (of == table ? " further up in this file" : " in " + of.file())
              + ", nor in this ledger.");
    }
    standing.computeIfAbsent(of.name(), name -> new HashSet<>()).add(inLedger);
    idsByKey.computeIfAbsent(of.name(), name -> new HashMap<>()).put(key, inLedger);
    return inLedger;
  }

  private @Nullable Long inLedger(Table of, String key) throws SQLException {
    Object value = key;
    if (!of.hasCode()) {
      try {
        value = UUID.fromString(key);
      } catch (IllegalArgumentException noId) {
        return null;
      }
    }
    return inLedger(of.name(), of.hasCode() ? "code_key" : "uuid", value);
  }

  private @Nullable Long inLedger(String name, String column, Object value) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select id from " + name + " where ledger_id = ? and " + column + " = ?")) {
      statement.setLong(1, member.ledgerId());
      statement.setObject(2, value);
      try (ResultSet found = statement.executeQuery()) {
        return found.next() ? found.getLong(1) : null;
      }
    }
  }

  private @Nullable Long idOrNull(String name, UUID uuid) {
    try {
      Long known = idsByUuid.getOrDefault(name, Map.of()).get(uuid);
      return known == null ? inLedger(name, "uuid", uuid) : known;
    } catch (SQLException broken) {
      throw new Broken(broken);
    }
  }

  /** An exact mass has to be what stands beside it as typed, where that is a mass with its unit. */
  private void compareWithTyped(int line, @Nullable Object[] values) {
    for (int i = 0; i + 1 < values.length; i++) {
      Field exact = table.fields().get(i);
      Field typed = table.fields().get(i + 1);
      if (exact.kind() == Kind.MASS
          && typed.kind() == Kind.TYPED
          && values[i] instanceof Long nanograms
          && values[i + 1] instanceof String text) {
        try {
          Mass read = Mass.parse(text);
          if (read.nanograms() != nanograms) {
            note(
                line,
                exact.heading(),
                "Here it is "
                    + new Mass(nanograms)
                    + ", and as typed it is "
                    + Faults.shortened(text)
                    + ": make the two the same.");
          }
        } catch (UnreadableQuantity noMassOfItsOwn) {
          // A bare number in the unit of its scale, a percentage, a volume.
        }
      }
    }
  }

  private void note(int line, String column, @Nullable String reason) {
    problemCount++;
    if (problems.size() < MOST_PROBLEMS) {
      problems.add(new BadRow(table.file(), line, column, String.valueOf(reason)));
    }
  }

  private void refuse(Row row, String column, String reason) {
    note(row.line(), column, reason);
    refused++;
    reject(row.cells().toArray(String[]::new));
  }

  private void reject(String[] cells) {
    if (table.hasCode() || table.hasUuid()) {
      Set<String> all = rejected.computeIfAbsent(table.name(), name -> new HashSet<>());
      all.add(nameOf(List.of(cells)));
    }
  }

  /** By what others name the thing of a row. */
  private String nameOf(List<String> cells) {
    return table.hasCode()
        ? Codes.key(SafeCell.read(cells.get(table.index("code"))))
        : cells.get(table.index("uuid"));
  }

  private boolean inThisFile(Row row) {
    return table.hasUuid()
            && idsByUuid
                .getOrDefault(table.name(), Map.of())
                .containsKey((UUID) row.values()[table.index("uuid")])
        || idsByKey.getOrDefault(table.name(), Map.of()).containsKey(nameOf(row.cells()));
  }

  private Object keyOf(Row row) {
    return key(row.cells());
  }

  private String key(List<String> cells) {
    return table.key().stream()
        .map(column -> column.equals("id") ? "" : cells.get(table.index(column)))
        .collect(Collectors.joining("\u0000"));
  }

  /**
   * What a changed thing held is replaced by what the file says that it holds. What has an id of
   * its own keeps its row; the rest is written anew.
   */
  private void makeWay() throws SQLException {
    if (table.holder() == null) {
      return;
    }
    Set<Long> holders = changing.getOrDefault(holderTable(), Set.of());
    for (List<Long> some : inBatches(holders)) {
      Set<Long> rows = new LinkedHashSet<>();
      stored.among(
          table,
          table.holder(),
          some,
          row -> {
            rows.add(row.id());
            before.add(String.join("\u0000", row.cells()));
          });
      if (table.hasUuid()) {
        changing.computeIfAbsent(table.name(), name -> new HashSet<>()).addAll(rows);
        unseen.computeIfAbsent(table.name(), name -> new LinkedHashSet<>()).addAll(rows);
      } else {
        delete(table.name(), table.holder(), some);
      }
    }
  }

  private String holderTable() {
    return String.valueOf(table.fields().get(table.index(String.valueOf(table.holder()))).of());
  }

  private void delete(String name, String column, Collection<Long> ids) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "delete from " + name + " where ledger_id = ? and " + column + " = ?")) {
      for (Long id : ids) {
        statement.setLong(1, member.ledgerId());
        statement.setLong(2, id);
        statement.addBatch();
      }
      statement.executeBatch();
    }
  }

  private static <T> List<List<T>> inBatches(Collection<T> all) {
    List<T> list = new ArrayList<>(all);
    List<List<T>> batches = new ArrayList<>();
    for (int i = 0; i < list.size(); i += BATCH) {
      batches.add(list.subList(i, Math.min(i + BATCH, list.size())));
    }
    return batches;
  }

  private void flush() throws SQLException {
    List<Row> rows = waiting;
    waiting = new ArrayList<>();
    waitingKeys = new HashSet<>();
    if (rows.isEmpty()) {
      return;
    }
    Map<String, Stored> known = hadRows ? known(rows) : Map.of();
    Map<String, Stored> byCode = hadRows && table.hasCode() ? knownByCode(rows) : Map.of();
    List<Row> fresh = new ArrayList<>();
    for (Row row : rows) {
      Stored same = known.get(key(row.cells()));
      Stored rival = byCode.get(table.hasCode() ? nameOf(row.cells()) : "");
      if (rival != null && (same == null || same.id() != rival.id())) {
        takeRival(row, rival, same == null);
      } else if (same != null) {
        takeKnown(row, same);
      } else if (holderStands(row)) {
        refuse(row, "", "What this belongs to is in the ledger already, without it.");
      } else {
        fresh.add(row);
      }
    }
    insert(fresh);
  }

  private boolean holderStands(Row row) {
    return table.holder() != null
        && standing
            .getOrDefault(holderTable(), Set.of())
            .contains((Long) row.values()[table.index(table.holder())]);
  }

  /** Another thing of the ledger has the code. A scope that every ledger has is the same one. */
  private void takeRival(Row row, Stored rival, boolean isNew) throws SQLException {
    int uuid = table.index("uuid");
    List<String> asRival = new ArrayList<>(row.cells());
    asRival.set(uuid, rival.cells().get(uuid));
    if (isNew && table.name().equals("scope") && asRival.equals(rival.cells())) {
      update(row, rival.id(), List.of(uuid));
      stand(row, rival.id(), standing);
      changed++;
    } else {
      refuse(row, "code", "Another " + table.name() + " of this ledger has this code.");
    }
  }

  private void takeKnown(Row row, Stored same) throws SQLException {
    if (sameCells(row.cells(), same.cells())) {
      stand(row, same.id(), standing);
      unchanged++;
      return;
    }
    Set<Long> unnamed = unseen.getOrDefault(table.name(), Set.of());
    if (unnamed.contains(same.id()) || mayChange(row, same)) {
      update(row, same.id(), columnsPresent());
      stand(row, same.id(), changing);
      changed++;
      return;
    }
    int differs = 0;
    while (sameCell(differs, row.cells().get(differs), same.cells().get(differs))) {
      differs++;
    }
    String here = same.cells().get(differs);
    refuse(
        row,
        table.fields().get(differs).heading(),
        "The ledger has this already, and here "
            + (here.isEmpty() ? "nothing" : Faults.shortened(here))
            + (table.revisions().isEmpty()
                ? "; it is not changed by an import."
                : "; the save in the file is no later one, and nothing is overwritten."));
  }

  /** A column that the file has not is not held against it. */
  private boolean sameCells(List<String> cells, List<String> others) {
    for (int i = 0; i < cells.size(); i++) {
      if (!sameCell(i, cells.get(i), others.get(i))) {
        return false;
      }
    }
    return true;
  }

  private boolean sameCell(int at, String cell, String other) {
    Field field = table.fields().get(at);
    return !present.contains(at)
        || (field.pointsElsewhere() ? cell.equalsIgnoreCase(other) : cell.equals(other));
  }

  /** Whether the file has a later save: one count of saves is ahead, and none is behind. */
  private boolean mayChange(Row row, Stored same) {
    if (table.name().equals("ledger") && pristine) {
      return true;
    }
    boolean later = false;
    for (String column : table.revisions()) {
      int at = table.index(column);
      int here = Integer.parseInt(same.cells().get(at));
      int there = row.values()[at] instanceof Integer number ? number : here;
      if (there < here) {
        return false;
      }
      later |= there > here;
    }
    return later;
  }

  private void stand(Row row, long id, Map<String, Set<Long>> how) {
    // What is the same in a thing that changes is written anew with it all the same.
    if (!changing.getOrDefault(table.name(), Set.of()).contains(id)) {
      how.computeIfAbsent(table.name(), name -> new HashSet<>()).add(id);
    }
    unseen.getOrDefault(table.name(), new HashSet<>()).remove(id);
    remember(row, id);
  }

  private void remember(Row row, long id) {
    if (!table.name().equals("ledger") && (table.hasCode() || table.hasUuid())) {
      idsByKey.computeIfAbsent(table.name(), name -> new HashMap<>()).put(nameOf(row.cells()), id);
      if (table.hasCode() && row.values()[table.index("uuid")] instanceof UUID uuid) {
        idsByUuid.computeIfAbsent(table.name(), name -> new HashMap<>()).put(uuid, id);
      }
    }
    if (table.name().equals("rig_line")
        && row.values()[table.index("child_rig_id")] instanceof Long inner
        && row.values()[table.index("rig_id")] instanceof Long rig) {
      linesWithRigs.put(new Held(rig, inner), row.line());
    }
  }

  private Map<String, Stored> known(List<Row> rows) throws SQLException {
    Map<String, Stored> known = new HashMap<>();
    String probe = table.key().get(0);
    Set<Object> values = new LinkedHashSet<>();
    for (Row row : rows) {
      Object value =
          probe.equals("id") ? (Object) member.ledgerId() : row.values()[table.index(probe)];
      if (value != null) {
        values.add(value);
      }
    }
    stored.among(table, probe, values, row -> known.put(key(row.cells()), row));
    return known;
  }

  private Map<String, Stored> knownByCode(List<Row> rows) throws SQLException {
    Map<String, Stored> known = new HashMap<>();
    stored.among(
        table,
        "code_key",
        rows.stream().map(row -> nameOf(row.cells())).collect(Collectors.toSet()),
        row -> known.put(nameOf(row.cells()), row));
    return known;
  }

  private List<Integer> columnsPresent() {
    return present.stream().sorted().toList();
  }

  private void insert(List<Row> rows) throws SQLException {
    if (rows.isEmpty()) {
      return;
    }
    Savepoint start = connection.setSavepoint();
    try {
      insertAll(rows);
      connection.releaseSavepoint(start);
    } catch (SQLException oneOfThem) {
      connection.rollback(start);
      for (Row row : rows) {
        Savepoint each = connection.setSavepoint();
        try {
          insertAll(List.of(row));
          connection.releaseSavepoint(each);
        } catch (SQLException refusal) {
          connection.rollback(each);
          refuse(row, "", reason(refusal));
        }
      }
    }
  }

  private static String reason(SQLException refusal) throws SQLException {
    String state = String.valueOf(refusal.getSQLState());
    if (state.equals("23505")) {
      return "The ledger, or an earlier row of this file, has this already.";
    }
    if (state.equals("23503") || state.equals("23506")) {
      return "It points at something that is not in this ledger.";
    }
    if (state.startsWith("23")) {
      return "What the row says does not go together, or is out of range.";
    }
    if (state.startsWith("22")) {
      return "A figure of the row is out of range.";
    }
    throw refusal;
  }

  private void insertAll(List<Row> rows) throws SQLException {
    List<Integer> columns = new ArrayList<>(columnsPresent());
    columns.addAll(stampsLeftOut);
    List<String> names = new ArrayList<>();
    names.add("ledger_id");
    boolean withKey =
        table.has("code") && table.fields().get(table.index("code")).kind() == Kind.CODE;
    if (withKey) {
      names.add("code_key");
    }
    columns.forEach(at -> names.add(table.fields().get(at).column()));
    String sql =
        "insert into "
            + table.name()
            + " ("
            + String.join(", ", names)
            + ") values ("
            + names.stream().map(name -> "?").collect(Collectors.joining(", "))
            + ")";
    try (PreparedStatement statement =
        table.numbered()
            ? connection.prepareStatement(sql, new String[] {"id"})
            : connection.prepareStatement(sql)) {
      for (Row row : rows) {
        int place = 1;
        statement.setLong(place++, member.ledgerId());
        if (withKey) {
          statement.setString(
              place++, Codes.key(String.valueOf(row.values()[table.index("code")])));
        }
        for (int at : columns) {
          set(statement, place++, table.fields().get(at), row.values()[at]);
        }
        statement.addBatch();
      }
      statement.executeBatch();
      if (table.numbered()) {
        try (ResultSet ids = statement.getGeneratedKeys()) {
          for (Row row : rows) {
            ids.next();
            remember(row, ids.getLong(1));
          }
        }
      }
    }
    for (Row row : rows) {
      if (before.contains(String.join("\u0000", row.cells()))) {
        unchanged++;
      } else {
        added++;
      }
    }
  }

  private void update(Row row, long id, List<Integer> columns) throws SQLException {
    List<String> sets = new ArrayList<>();
    columns.forEach(at -> sets.add(table.fields().get(at).column() + " = ?"));
    boolean withKey = table.hasCode() && columns.contains(table.index("code"));
    if (withKey) {
      sets.add("code_key = ?");
    }
    try (PreparedStatement statement =
        connection.prepareStatement(
            "update "
                + table.name()
                + " set "
                + String.join(", ", sets)
                + " where "
                + table.ledgerColumn()
                + " = ? and id = ?")) {
      int place = 1;
      for (int at : columns) {
        set(statement, place++, table.fields().get(at), row.values()[at]);
      }
      if (withKey) {
        statement.setString(place++, Codes.key(String.valueOf(row.values()[table.index("code")])));
      }
      statement.setLong(place++, member.ledgerId());
      statement.setLong(place, id);
      statement.executeUpdate();
    }
  }

  private static void set(
      PreparedStatement statement, int place, Field field, @Nullable Object value)
      throws SQLException {
    if (value != null) {
      statement.setObject(place, value);
      return;
    }
    statement.setNull(
        place,
        switch (field.kind()) {
          case MASS, LENGTH, REFERENCE, SUBJECT, PERSON -> java.sql.Types.BIGINT;
          case WHOLE -> java.sql.Types.INTEGER;
          case REAL -> java.sql.Types.DOUBLE;
          case DECIMAL -> java.sql.Types.NUMERIC;
          case YES_NO -> java.sql.Types.BOOLEAN;
          case UUID -> java.sql.Types.OTHER;
          case INSTANT -> java.sql.Types.TIMESTAMP_WITH_TIMEZONE;
          case DAY -> java.sql.Types.DATE;
          default -> java.sql.Types.VARCHAR;
        });
  }

  /** What a changed thing no longer holds, after all that hung on it. */
  private void deleteUnseen() throws SQLException {
    List<String> names = new ArrayList<>(unseen.keySet());
    for (int i = names.size() - 1; i >= 0; i--) {
      delete(names.get(i), "id", unseen.getOrDefault(names.get(i), Set.of()));
    }
  }

  /** Rigs that would hold themselves, or be too deep, once everything is in. */
  private void refuseCircles() throws SQLException {
    if (linesWithRigs.isEmpty()) {
      return;
    }
    Map<Long, List<Long>> held = new HashMap<>();
    Map<Long, String> codes = new HashMap<>();
    stored.all(LedgerTables.named("rig"), row -> codes.put(row.id(), row.cells().get(1)));
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select rig_id, child_rig_id from rig_line where ledger_id = ? and child_rig_id is not null")) {
      statement.setLong(1, member.ledgerId());
      try (ResultSet found = statement.executeQuery()) {
        while (found.next()) {
          held.computeIfAbsent(found.getLong(1), rig -> new ArrayList<>()).add(found.getLong(2));
        }
      }
    }
    Map<Long, Integer> levels = new HashMap<>();
    for (Long rig : List.copyOf(held.keySet())) {
      walk(rig, held, levels, codes, new ArrayDeque<>());
    }
  }

  private int walk(
      long rig,
      Map<Long, List<Long>> held,
      Map<Long, Integer> levels,
      Map<Long, String> codes,
      Deque<Long> path) {
    Integer known = levels.get(rig);
    if (known != null) {
      return known;
    }
    path.addLast(rig);
    int level = 1;
    for (long inner : held.getOrDefault(rig, List.of())) {
      int line = linesWithRigs.getOrDefault(new Held(rig, inner), 1);
      if (path.contains(inner)) {
        List<Long> all = new ArrayList<>(path);
        String circle =
            all.subList(all.indexOf(inner), all.size()).stream()
                .map(step -> codes.get(step) + " → ")
                .collect(Collectors.joining());
        String code = codes.get(inner);
        note(line, "child-rig", code + " would hold itself: " + circle + code + ".");
      } else if (path.size() >= DEEPEST) {
        note(line, "child-rig", "Rigs are held in rigs more than " + DEEPEST + " levels deep.");
      } else {
        level = Math.max(level, 1 + walk(inner, held, levels, codes, path));
      }
    }
    path.removeLast();
    levels.put(rig, level);
    return level;
  }
}
