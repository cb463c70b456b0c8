package org.tareline.exchange;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.exchange.Sheet.Row;
import org.tareline.ledger.Member;
import org.tareline.material.Materials;
import org.tareline.material.Swatches;
import org.tareline.part.Comfort;
import org.tareline.part.CutSize;
import org.tareline.part.LifeEvents;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rig.HangEntry;
import org.tareline.rig.HangLoads;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rig.SetUps;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.trip.Trips;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * Takes a ledger in from its files, all of it or nothing. Every row goes the way it would go if
 * somebody typed it, so that a file can bring nothing about that a page would refuse.
 */
@Service
class LedgerIntake {

  private final Scales scales;
  private final Materials materials;
  private final Swatches swatches;
  private final Parts parts;
  private final LifeEvents events;
  private final Weighings weighings;

  private final Scopes scopes;
  private final Rigs rigs;
  private final HangLoads loads;
  private final SetUps setUps;
  private final Trips trips;

  LedgerIntake(
      Scales scales,
      Materials materials,
      Swatches swatches,
      Parts parts,
      LifeEvents events,
      Weighings weighings,
      Scopes scopes,
      Rigs rigs,
      HangLoads loads,
      SetUps setUps,
      Trips trips) {
    this.scales = scales;
    this.materials = materials;
    this.swatches = swatches;
    this.parts = parts;
    this.events = events;
    this.weighings = weighings;
    this.scopes = scopes;
    this.rigs = rigs;
    this.loads = loads;
    this.setUps = setUps;
    this.trips = trips;
  }

  /**
   * Takes in what the files hold.
   *
   * @throws BadRows if a single row cannot be taken in; then nothing has been
   */
  @Transactional
  public void takeIn(Member member, LedgerFiles files) {
    Rejects rejects = new Rejects();
    for (Row row : Sheet.read(files, LedgerFile.SCALES, rejects).rows()) {
      rejects.gather(row, () -> takeInScale(member, row));
    }
    for (Row row : Sheet.read(files, LedgerFile.MATERIALS, rejects).rows()) {
      rejects.gather(row, () -> takeInMaterial(member, row));
    }
    for (Row row : Sheet.read(files, LedgerFile.SWATCHES, rejects).rows()) {
      rejects.gather(row, () -> takeInSwatch(member, row));
    }
    for (Row row : Sheet.read(files, LedgerFile.PARTS, rejects).rows()) {
      rejects.gather(row, () -> takeInPart(member, row));
    }
    RowsWithLines cutLists =
        RowsWithLines.read(files, LedgerFile.CUT_LISTS, LedgerFile.CUT_LINES, "part", rejects);
    for (Row row : cutLists.rows()) {
      List<Row> lines = cutLists.linesOf(row);
      rejects.gather(row, lines, () -> takeInCutList(member, row, lines));
    }
    takeInWeighings(member, Sheet.read(files, LedgerFile.WEIGHINGS, rejects).rows(), rejects);
    takeInEvents(member, Sheet.read(files, LedgerFile.LIFE_EVENTS, rejects).rows(), rejects);
    for (Row row : Sheet.read(files, LedgerFile.SCOPES, rejects).rows()) {
      rejects.gather(row, () -> takeInScope(member, row));
    }
    RowsWithLines rigRows =
        RowsWithLines.read(files, LedgerFile.RIGS, LedgerFile.RIG_LINES, "rig", rejects);
    for (Row row : HeldFirst.order(rigRows, rejects)) {
      List<Row> lines = rigRows.linesOf(row);
      rejects.gather(row, lines, () -> takeInRig(member, row, lines));
    }
    RowsWithLines loadRows =
        RowsWithLines.read(
            files, LedgerFile.RIG_LOADS, LedgerFile.RIG_LOAD_ELEMENTS, "rig", rejects);
    for (Row row : loadRows.rows()) {
      List<Row> lines = loadRows.linesOf(row);
      rejects.gather(row, lines, () -> takeInLoads(member, row, lines));
    }
    for (Row row : Sheet.read(files, LedgerFile.SET_UPS, rejects).rows()) {
      rejects.gather(row, () -> takeInSetUp(member, row));
    }
    RowsWithLines tripRows =
        RowsWithLines.read(files, LedgerFile.TRIPS, LedgerFile.TRIP_LINES, "trip", rejects);
    RowsWithLines carrierRows = tripRows.with(files, LedgerFile.TRIP_CARRIERS, "trip", rejects);
    for (Row row : tripRows.rows()) {
      List<Row> lines = tripRows.linesOf(row);
      rejects.gather(row, lines, () -> takeInTrip(member, row, carrierRows.linesOf(row), lines));
    }
    rejects.refuseIfAny();
  }

  private void takeInScale(Member member, Row row) {
    scales.add(
        member,
        new Scales.Entry(
            row.cell("code"),
            row.cell("name"),
            row.cell("readability"),
            row.cell("capacity"),
            row.cell("repeatability"),
            row.cell("span-tolerance")));
  }

  private void takeInMaterial(Member member, Row row) {
    materials.add(
        member,
        new Materials.Entry(
            row.cell("code"),
            row.cell("name"),
            row.cell("kind"),
            row.cell("nominal"),
            null,
            row.cell("tolerance"),
            row.cell("fill-power"),
            row.cell("width"),
            row.cell("strength"),
            row.cell("strength-kind"),
            row.cell("fibre"),
            row.cell("price"),
            row.cell("colour"),
            row.cell("note"),
            row.cell("stock"),
            row.cell("use")));
  }

  private void takeInSwatch(Member member, Row row) {
    if (materials.find(member, row.cell("material")).isEmpty()) {
      throw Refusal.badInput(
          "material",
          "There is no material " + Faults.shortened(row.cell("material")) + " in this ledger.");
    }
    Weighing weighing =
        swatches
            .log(
                member,
                row.cell("material"),
                new Swatches.Entry(
                    row.cell("length"),
                    row.cell("width"),
                    row.cell("size-error"),
                    row.cell("place"),
                    weighing(row)))
            .logged()
            .weighing();
    if (!row.cell("voided").isEmpty()) {
      weighings.strikeOut(member, weighing.uuid(), row.cell("voided"));
    }
  }

  private static Weighings.Entry weighing(Row row) {
    return new Weighings.Entry(
        row.cell("scale"),
        row.cell("tolerance"),
        List.copyOf(row.several("readings")),
        null,
        row.cell("tare"),
        row.cell("count"),
        row.cell("condition"),
        row.cell("weighed-at"),
        row.cell("note"));
  }

  /** A part that has had other codes goes through them, so that they still find it. */
  private void takeInPart(Member member, Row row) {
    List<String> former = row.several("former-codes");
    String code = former.isEmpty() ? row.cell("code") : former.get(0);
    parts.add(member, part(row, code));
    for (int i = 1; i <= former.size(); i++) {
      String next = i < former.size() ? former.get(i) : row.cell("code");
      parts.change(member, code, part(row, next), null);
      code = next;
    }
  }

  private static Parts.Entry part(Row row, String code) {
    return new Parts.Entry(
        code,
        row.cell("name"),
        row.cell("system"),
        row.cell("owned"),
        new Parts.StatedEntry(row.cell("stated"), row.cell("tolerance")),
        row.cell("fibre"),
        row.cell("strength").isEmpty() && row.cell("strength-kind").isEmpty()
            ? null
            : new Parts.StrengthEntry(row.cell("strength"), row.cell("strength-kind")),
        new Comfort.Entry(
            row.cell("comfort-temperature"),
            row.cell("comfort-temperature-kind"),
            row.cell("comfort-temperature-insulates")),
        new PackedSize.Entry(row.cell("packed-volume"), row.cell("packed-length")),
        row.cell("note"),
        null);
  }

  private void takeInCutList(Member member, Row row, List<Row> lines) {
    Part part =
        parts
            .find(member, row.cell("part"))
            .orElseThrow(() -> Refusal.badInput("part", noSuchPart(row)));
    List<Parts.@Nullable CutEntry> entries = new ArrayList<>();
    for (Row line : lines) {
      Map<CutSize, @Nullable String> sizes = new EnumMap<>(CutSize.class);
      for (CutSize size : CutSize.values()) {
        String typed = line.cell(LedgerFile.CUT_LINES.columnOf(size.word()));
        if (!typed.isEmpty()) {
          sizes.put(size, typed);
        }
      }
      String stitch = line.cell("stitch");
      entries.add(
          new Parts.CutEntry(
              null,
              line.cell("name"),
              line.cell("kind"),
              line.cell("shape"),
              line.cell("material"),
              line.cell("quantity"),
              removed(line),
              stitch.isEmpty() ? null : stitch,
              sizes));
    }
    parts.cut(
        member,
        part.code(),
        new Parts.SheetEntry(row.cell("cutting-tolerance"), entries),
        part.revision());
  }

  private static boolean removed(Row line) {
    String removed = line.cell("removed");
    if (!removed.isEmpty() && !removed.equals("yes")) {
      throw Refusal.badInput(
          "removed", "Say yes of what is cut away; read " + Faults.shortened(removed) + ".");
    }
    return !removed.isEmpty();
  }

  private void takeInWeighings(Member member, List<Row> rows, Rejects rejects) {
    Map<String, Part> weighed =
        parts.byCodes(member, rows.stream().map(row -> row.cell("part")).toList());
    for (Row row : rows) {
      rejects.gather(
          row, () -> takeInWeighing(member, row, weighed.get(Codes.key(row.cell("part")))));
    }
  }

  private void takeInWeighing(Member member, Row row, @Nullable Part part) {
    Faults faults = new Faults();
    if (part == null) {
      faults.add("part", noSuchPart(row));
    }
    Weighing read = weighings.read(member, weighing(row), faults);
    faults.refuseIfAny();
    if (part == null) {
      throw new IllegalStateException("A fault was noted for a part that is not there");
    }
    Weighing kept = weighings.log(read, List.of(Placed.part(part.id(), read.pieceCount())));
    if (!row.cell("voided").isEmpty()) {
      weighings.strikeOut(member, kept.uuid(), row.cell("voided"));
    }
  }

  private void takeInEvents(Member member, List<Row> rows, Rejects rejects) {
    Map<String, Part> those =
        parts.byCodes(member, rows.stream().map(row -> row.cell("part")).toList());
    for (Row row : rows) {
      rejects.gather(row, () -> takeInEvent(member, row, those.get(Codes.key(row.cell("part")))));
    }
  }

  private void takeInEvent(Member member, Row row, @Nullable Part part) {
    if (part == null) {
      throw Refusal.badInput("part", noSuchPart(row));
    }
    LifeEvents.Logged logged =
        events
            .log(
                member,
                part.code(),
                new LifeEvents.Entry(
                    row.cell("kind"), row.cell("date"), row.cell("count"), row.cell("note")))
            .logged();
    if (!row.cell("voided").isEmpty()) {
      events.strikeOut(member, part.code(), logged.event().uuid(), row.cell("voided"));
    }
  }

  private static String noSuchPart(Row row) {
    return "There is no part " + Faults.shortened(row.cell("part")) + " in this ledger.";
  }

  private void takeInScope(Member member, Row row) {
    scopes.add(
        member,
        new Scopes.Entry(
            row.cell("code"),
            row.cell("name"),
            List.copyOf(row.several("counts")),
            List.copyOf(row.several("leaves-out"))));
  }

  private void takeInRig(Member member, Row row, List<Row> lines) {
    List<Rigs.@Nullable LineEntry> entries = new ArrayList<>();
    for (Row line : lines) {
      entries.add(
          new Rigs.LineEntry(
              null,
              line.cell("part"),
              line.cell("nested-rig"),
              line.cell("quantity"),
              line.cell("role")));
    }
    rigs.add(member, new Rigs.Entry(row.cell("code"), row.cell("name"), entries, row.cell("note")));
  }

  private void takeInLoads(Member member, Row row, List<Row> lines) {
    List<HangLoads.@Nullable PartEntry> elements = new ArrayList<>();
    for (Row line : lines) {
      elements.add(
          new HangLoads.PartEntry(
              line.cell("part"),
              line.cell("where"),
              line.cell("termination"),
              line.cell("termination-factor"),
              line.cell("termination-source"),
              line.cell("length"),
              line.cell("breaking-stretch")));
    }
    List<HangEntry.@Nullable EndEntry> ends = new ArrayList<>();
    ends.add(end(row, "first-"));
    ends.add(end(row, "second-"));
    loads.hang(
        member,
        rig(member, row).code(),
        new HangLoads.Entry(
            row.cell("lies"),
            row.cell("hangs"),
            row.cell("dynamic-allowance"),
            row.cell("design-factor"),
            row.cell("ridge-length"),
            row.cell("flat-length"),
            row.cell("edge-span"),
            row.cell("edge-sag"),
            row.cell("gives-tree"),
            row.cell("gives-settling"),
            ends,
            elements),
        null);
  }

  private static HangEntry.EndEntry end(Row row, String which) {
    String bar = which + "bar-";
    return new HangEntry.EndEntry(
        row.cell(which + "angle"),
        row.cell(which + "run"),
        row.cell(which + "rise"),
        row.cell(which + "body-angle"),
        row.cell(bar + "length").isEmpty()
            ? null
            : new HangEntry.BarEntry(
                row.cell(bar + "length"),
                row.cell(bar + "leg"),
                row.cell(bar + "apex-distance"),
                row.cell(bar + "edge-angle"),
                row.cell(bar + "outer-diameter"),
                row.cell(bar + "wall"),
                row.cell(bar + "modulus"),
                row.cell(bar + "yield")));
  }

  private void takeInSetUp(Member member, Row row) {
    if (!row.cell("favourite").isEmpty() && !row.cell("favourite").equals("yes")) {
      throw Refusal.badInput("favourite", "Say yes, or leave it empty.");
    }
    setUps.add(
        member,
        rig(member, row).code(),
        new SetUps.Entry(
            row.cell("hung-on"),
            row.cell("ridge-length"),
            row.cell("ridge-mark"),
            row.cell("head-angle"),
            row.cell("head-run"),
            row.cell("head-rise"),
            row.cell("foot-angle"),
            row.cell("foot-run"),
            row.cell("foot-rise"),
            row.cell("sag"),
            row.cell("head-height"),
            row.cell("foot-height"),
            row.cell("anchor-distance"),
            row.cell("words"),
            !row.cell("favourite").isEmpty()));
  }

  private Rig rig(Member member, Row row) {
    return rigs.find(member, row.cell("rig"))
        .orElseThrow(
            () ->
                Refusal.badInput(
                    "rig",
                    "There is no rig " + Faults.shortened(row.cell("rig")) + " in this ledger."));
  }

  private void takeInTrip(Member member, Row row, List<Row> carriers, List<Row> lines) {
    List<Trips.@Nullable LineEntry> entries = new ArrayList<>();
    for (Row line : lines) {
      entries.add(
          new Trips.LineEntry(
              null,
              line.cell("part"),
              line.cell("rig"),
              null,
              item(line),
              line.cell("quantity"),
              line.cell("carry"),
              line.cell("place"),
              line.cell("carrier"),
              line.cell("counts-for"),
              List.copyOf(line.several("left-at-home")),
              pairs(line, "stands-in-for").stream()
                  .<Trips.@Nullable StandInEntry>map(
                      pair -> new Trips.StandInEntry(pair[0], pair[1]))
                  .toList(),
              new Trips.SupplyEntry(
                  byDay(line, "taken"),
                  byDay(line, "used"),
                  line.cell("per-day"),
                  line.cell("density"))));
    }
    trips.add(
        member,
        new Trips.Entry(
            row.cell("code"),
            row.cell("name"),
            row.cell("starts"),
            row.cell("days"),
            row.cell("coldest-night"),
            carriers.stream()
                .<Trips.@Nullable CarrierEntry>map(
                    carrier ->
                        new Trips.CarrierEntry(
                            carrier.cell("code"),
                            carrier.cell("name"),
                            carrier.cell("body-mass"),
                            new PackedSize.Entry(
                                carrier.cell("pack-volume"), carrier.cell("pack-length"))))
                .toList(),
            entries,
            row.cell("target-base"),
            row.cell("note")));
  }

  private static Map<String, @Nullable String> byDay(Row line, String column) {
    Map<String, @Nullable String> byDay = new LinkedHashMap<>();
    pairs(line, column).forEach(pair -> byDay.put(pair[0], pair[1]));
    return byDay;
  }

  /** What stands before and after the colon of each entry; all of it before where there is none. */
  private static List<String[]> pairs(Row line, String column) {
    return line.several(column).stream()
        .map(
            entry -> {
              int colon = entry.indexOf(':');
              return colon < 0
                  ? new String[] {entry, ""}
                  : new String[] {
                    entry.substring(0, colon).strip(), entry.substring(colon + 1).strip()
                  };
            })
        .toList();
  }

  private static Trips.@Nullable ItemEntry item(Row line) {
    String name = line.cell("item");
    String system = line.cell("system");
    String mass = line.cell("mass");
    return name.isEmpty() && system.isEmpty() && mass.isEmpty()
        ? null
        : new Trips.ItemEntry(name, system, mass);
  }
}
