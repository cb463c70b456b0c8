package org.tareline.part;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.tareline.cutting.Cut;
import org.tareline.cutting.Stock;
import org.tareline.ledger.Member;
import org.tareline.material.Material;
import org.tareline.material.Materials;
import org.tareline.material.OnHand;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighings;

/** Cut lists: read, kept, and worked out. */
@Component
class CutSheets {

  private static final int MOST_LINES = 200;
  private static final int MOST_PIECES = 10_000;

  /** Decimals of the column; a size in inches takes nine of them. */
  private static final int DECIMALS = 12;

  private static final String HOLDER = "buildSheet";
  private static final String SAY_AS_TYPED = "Let the figures say what is typed beside them.";

  private final CutLineRepository lines;
  private final Materials materials;
  private final Weighings weighings;

  CutSheets(CutLineRepository lines, Materials materials, Weighings weighings) {
    this.lines = lines;
    this.materials = materials;
    this.weighings = weighings;
  }

  /** The cut lists of these parts, worked out in a fixed number of queries; none of most parts. */
  Map<Long, Calculation> of(Member member, Collection<Part> parts) {
    return of(member, parts, materials::stocks, true);
  }

  /** The same as if none of its lines had been weighed. */
  Map<Long, Calculation> unweighed(Member member, Collection<Part> parts) {
    return of(member, parts, materials::stocks, false);
  }

  /**
   * The same as if none of its lines had been weighed, and nothing that was learned of a material
   * had been taken.
   */
  Map<Long, Calculation> beforeLearning(Member member, Collection<Part> parts) {
    return of(member, parts, materials::stocksBeforeLearning, false);
  }

  private Map<Long, Calculation> of(
      Member member,
      Collection<Part> parts,
      BiFunction<Member, Collection<Material>, Map<Long, Stock>> stocksOf,
      boolean asWeighed) {
    if (parts.isEmpty()) {
      return Map.of();
    }
    Map<Long, Part> byId =
        parts.stream().collect(Collectors.toMap(Part::id, part -> part, (same, twice) -> same));
    Map<Long, List<CutLine>> byPart = byPart(member, byId.keySet());
    if (byPart.isEmpty()) {
      return Map.of();
    }
    Map<Long, Material> used =
        materials
            .byIds(
                member,
                byPart.values().stream()
                    .flatMap(List::stream)
                    .map(CutLine::materialId)
                    .collect(Collectors.toSet()))
            .stream()
            .collect(Collectors.toMap(Material::id, material -> material));
    Map<Long, Stock> stocks = stocksOf.apply(member, used.values());
    Map<Long, Weighings.Newest> newest =
        asWeighed
            ? weighings.newestUsable(member, Subject.CUT_LINE, weighed(member, byPart.values()))
            : Map.of();
    Map<Long, Calculation.Weighed> weighed = new HashMap<>();
    byPart.values().stream()
        .flatMap(List::stream)
        .forEach(
            line ->
                Optional.ofNullable(newest.get(line.id()))
                    .ifPresent(
                        on ->
                            weighed.put(
                                line.id(),
                                weighed(
                                    member,
                                    Objects.requireNonNull(used.get(line.materialId())),
                                    line,
                                    on))));
    Map<Long, Calculation> calculations = new HashMap<>();
    byPart.forEach(
        (id, ofPart) -> {
          // A material may lose the only swatch that said what it weighs: then nobody knows.
          if (ofPart.stream().allMatch(line -> unfit(line, used, stocks) == null)) {
            calculations.put(
                id,
                Calculation.of(
                    Objects.requireNonNull(byId.get(id)), ofPart, used, stocks, weighed));
          }
        });
    return calculations;
  }

  /** The lines of these parts in their order, by the row of the part. */
  Map<Long, List<CutLine>> linesOf(Member member, Collection<Part> of) {
    return of.isEmpty() ? Map.of() : byPart(member, of.stream().map(Part::id).toList());
  }

  /**
   * Notes what is wrong with a list that is kept already. Nothing is, where a material weighs
   * another thing than it did, or nobody knows any more what it weighs.
   */
  void readAgain(Member member, Part part, List<CutLine> of, Faults faults) {
    Map<Long, Material> used =
        materials.byIds(member, of.stream().map(CutLine::materialId).distinct().toList()).stream()
            .collect(Collectors.toMap(Material::id, material -> material));
    Map<Long, Stock> stocks = new HashMap<>(materials.stocks(member, used.values()));
    Map<String, Material> named = new HashMap<>();
    for (Material material : used.values()) {
      named.put(Codes.key(material.code()), material);
      material.per().ifPresent(per -> stocks.putIfAbsent(material.id(), anyMass(material, per)));
    }
    List<Parts.@Nullable CutEntry> entries = new ArrayList<>();
    of.forEach(
        line ->
            entries.add(line.entry(Objects.requireNonNull(used.get(line.materialId())).code())));
    CutSheet read =
        sheet(
            new Parts.SheetEntry(part.cuttingToleranceTyped().orElse(null), entries),
            named,
            stocks,
            faults);
    if (!Objects.equals(read.toleranceNanometres(), part.cuttingToleranceNanometres())) {
      faults.add(HOLDER + ".cuttingTolerance", SAY_AS_TYPED);
    }
    for (int i = 0; faults.none() && i < of.size(); i++) {
      if (!of.get(i).saysAs(read.lines().get(i))) {
        faults.add(HOLDER + ".lines[" + i + "]", SAY_AS_TYPED);
      }
    }
  }

  private static Stock anyMass(Material material, Stock.Per per) {
    return new Stock(
        material.uuid().toString(), material.code(), per, 1, 0, Double.POSITIVE_INFINITY);
  }

  /** The lines of these parts in their order. */
  private Map<Long, List<CutLine>> byPart(Member member, Collection<Long> parts) {
    Map<Long, CutLine> byId = new LinkedHashMap<>();
    for (Object[] columns : lines.rowsOf(member.ledgerId(), parts.toArray(Long[]::new))) {
      CutRow row = CutRow.of(columns);
      byId.computeIfAbsent(row.id(), id -> new CutLine(member.ledgerId(), row)).take(row);
    }
    return byId.values().stream()
        .sorted(Comparator.comparingLong(CutLine::partId).thenComparingInt(CutLine::position))
        .collect(Collectors.groupingBy(CutLine::partId, LinkedHashMap::new, Collectors.toList()));
  }

  /** Those that were ever weighed: few, mostly none. */
  private List<Long> weighed(Member member, Collection<List<CutLine>> lists) {
    Set<Long> ever = weighings.everWeighed(member, Subject.CUT_LINE);
    return lists.stream().flatMap(List::stream).map(CutLine::id).filter(ever::contains).toList();
  }

  private Calculation.Weighed weighed(
      Member member, Material material, CutLine line, Weighings.Newest newest) {
    return new Calculation.Weighed(
        newest.weighing(),
        materials.massOf(member, material, newest.weighing()).times(line.quantity()),
        newest.revision() != null && newest.revision() != line.revision());
  }

  private static @Nullable String unfit(
      CutLine line, Map<Long, Material> materials, Map<Long, Stock> stocks) {
    return unfit(
        line.form(),
        Objects.requireNonNull(materials.get(line.materialId())),
        stocks.get(line.materialId()));
  }

  /** Why a line that is to be cut from a material cannot be, as a sentence. */
  Optional<String> unfit(Member member, Material material) {
    Map<Long, Material> one = Map.of(material.id(), material);
    Map<Long, Stock> stocks = materials.stocks(member, List.of(material));
    return lines.ofMaterial(member.ledgerId(), material.id()).stream()
        .map(line -> unfit(line, one, stocks))
        .filter(Objects::nonNull)
        .findFirst();
  }

  /** The rows of the parts that are cut from a material. */
  List<Long> partsOf(Member member, Material material) {
    return lines.partsOf(member.ledgerId(), material.id());
  }

  /** How much of each of its materials is on hand, by its row. */
  Map<Long, OnHand> onHand(Member member, Calculation calculation) {
    return materials.onHand(
        member,
        calculation.lines().stream()
            .collect(
                Collectors.toMap(
                    line -> line.material().id(),
                    Calculation.Line::material,
                    (same, twice) -> same))
            .values());
  }

  /** Puts a list in the place of the one that a part has; lines that stay keep their rows. */
  void keep(Member member, Part part, CutSheet sheet) {
    Map<UUID, CutLine> there = byId(member, part);
    for (int i = 0; i < sheet.lines().size(); i++) {
      CutSheet.Line read = sheet.lines().get(i);
      CutLine stays = read.id() == null ? null : there.remove(read.id());
      if (stays == null) {
        lines.save(new CutLine(member.ledgerId(), part.id(), i, read));
      } else {
        stays.describe(i, read);
      }
    }
    List<Long> gone = there.values().stream().map(CutLine::id).toList();
    if (!gone.isEmpty()) {
      lines.forgetSizes(member.ledgerId(), gone);
      lines.forgetLines(member.ledgerId(), gone);
    }
  }

  private Map<UUID, CutLine> byId(Member member, @Nullable Part part) {
    Map<UUID, CutLine> there = new LinkedHashMap<>();
    if (part != null) {
      lines.linesOf(member.ledgerId(), part.id()).forEach(line -> there.put(line.uuid(), line));
    }
    return there;
  }

  /**
   * Says which lines of a list that was read are lines that are there: by their ids, or because
   * they say the same. A line that was weighed does not go without notice.
   */
  private CutSheet matched(Member member, @Nullable Part part, CutSheet sheet, Faults faults) {
    Map<UUID, CutLine> there = byId(member, part);
    List<CutSheet.Line> matched = new ArrayList<>();
    Set<UUID> named =
        sheet.lines().stream()
            .map(CutSheet.Line::id)
            .filter(Objects::nonNull)
            .collect(Collectors.toSet());
    for (CutSheet.Line line : sheet.lines()) {
      UUID id =
          line.id() != null
              ? line.id()
              : there.values().stream()
                  .filter(each -> !named.contains(each.uuid()) && each.cutsAs(line))
                  .map(CutLine::uuid)
                  .findFirst()
                  .orElse(null);
      CutLine stays = id == null ? null : there.remove(id);
      matched.add(line.as(stays == null ? null : stays.uuid()));
    }
    Map<Long, CutLine> gone =
        there.values().stream().collect(Collectors.toMap(CutLine::id, line -> line));
    weighings.historyOf(member, Subject.CUT_LINE, gone.keySet()).stream()
        .filter(logged -> logged.voidReason() == null)
        .map(logged -> Objects.requireNonNull(gone.get(logged.subject().id())))
        .distinct()
        .forEach(
            line ->
                faults.conflict(
                    HOLDER + ".lines",
                    "The line "
                        + line.name().orElse(line.form().words())
                        + " was weighed, and would be gone. Send its id with it to keep it, or strike"
                        + " its weighings out first."));
    return new CutSheet(sheet.toleranceNanometres(), sheet.toleranceTyped(), matched);
  }

  /** The line with this id in the cut list of a part. */
  Optional<CutLine> line(Member member, Part part, UUID id) {
    return lines.findByLedgerIdAndPartIdAndUuid(member.ledgerId(), part.id(), id);
  }

  /** The lines in these rows. */
  List<CutLine> lines(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : lines.byIds(member.ledgerId(), ids.toArray(Long[]::new));
  }

  /** Reads a list and notes all that is wrong with it, at the line and the field. */
  CutSheet read(Member member, @Nullable Part itself, Parts.SheetEntry entry, Faults faults) {
    List<Parts.@Nullable CutEntry> entries = entry.lines() == null ? List.of() : entry.lines();
    if (entries.size() > MOST_LINES) {
      faults.add(
          HOLDER + ".lines",
          "Give at most " + MOST_LINES + " lines; there are " + entries.size() + ".");
      return CutSheet.NONE;
    }
    Map<String, Material> named =
        materials.byCodes(
            member,
            entries.stream()
                .filter(Objects::nonNull)
                .map(Parts.CutEntry::material)
                .filter(Objects::nonNull)
                .filter(code -> code.strip().length() <= Codes.LONGEST)
                .collect(Collectors.toSet()));
    Map<Long, Stock> stocks = materials.stocks(member, named.values());
    CutSheet sheet = sheet(entry, named, stocks, faults);
    if (faults.none()) {
      refuseMoreCutAwayThanThereIs(sheet, stocks, faults);
      return matched(member, itself, sheet, faults);
    }
    return sheet;
  }

  /** As far as it can be told by the lines themselves. */
  private static CutSheet sheet(
      Parts.SheetEntry entry, Map<String, Material> named, Map<Long, Stock> stocks, Faults faults) {
    List<Parts.@Nullable CutEntry> entries = entry.lines() == null ? List.of() : entry.lines();
    String toleranceField = HOLDER + ".cuttingTolerance";
    String toleranceTyped =
        faults.optionalText(toleranceField, entry.cuttingTolerance(), "the cutting tolerance", 200);
    Quantity tolerance =
        toleranceTyped == null
            ? null
            : faults.read(
                toleranceField,
                () -> Quantity.read(toleranceTyped, Kind.LENGTH, Unit.MILLIMETRE).notNegative());
    List<CutSheet.Line> read = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      Parts.CutEntry line = entries.get(i);
      String at = HOLDER + ".lines[" + i + "]";
      if (line == null) {
        faults.add(at, "Say what is cut: a panel, a length, a seam, each or a fill.");
        continue;
      }
      CutSheet.Line known = line(line, at + ".", named, stocks, faults);
      if (known != null) {
        read.add(known);
      }
    }
    return new CutSheet(
        tolerance == null ? null : tolerance.length().nanometres(), toleranceTyped, read);
  }

  private static void refuseMoreCutAwayThanThereIs(
      CutSheet sheet, Map<Long, Stock> stocks, Faults faults) {
    double grams = 0;
    for (CutSheet.Line line : sheet.lines()) {
      grams += cut(line, stocks.get(line.materialId())).grams();
    }
    if (grams < 0) {
      faults.add(HOLDER + ".lines", "More is cut away than there is.");
    }
  }

  private static Cut cut(CutSheet.Line line, @Nullable Stock stock) {
    return line.form()
        .cut(
            stock == null ? Calculation.weighedOut(line.material()) : stock,
            line::amount,
            line.quantity(),
            line.removed());
  }

  private static CutSheet.@Nullable Line line(
      Parts.CutEntry entry,
      String at,
      Map<String, Material> named,
      Map<Long, Stock> stocks,
      Faults faults) {
    String name = faults.optionalText(at + "name", entry.name(), "the name", 200);
    CutForm form = form(entry, at, faults);
    String code = faults.text(at + "material", entry.material(), "the material's code", 60);
    Material material = code.isEmpty() ? null : named.get(Codes.key(code));
    if (material == null && !code.isEmpty()) {
      faults.add(
          at + "material", "There is no material " + Faults.shortened(code) + " in this ledger.");
    }
    int quantity =
        faults.wholeNumber(at + "quantity", entry.quantity(), "how many", 1, MOST_PIECES, 1);
    boolean removed = entry.removed() != null && entry.removed();
    if (form == null) {
      return null;
    }
    if (removed && form.shape().isEmpty()) {
      faults.add(at + "removed", "Only a panel can be cut away.");
    }
    boolean sound = faults.none();
    Map<CutSize, CutSheet.Given> sizes = sizes(entry, form, at, faults);
    if (material == null) {
      return null;
    }
    Stock stock = stocks.get(material.id());
    String unfit = unfit(form, material, stock);
    if (unfit != null) {
      faults.add(at + "material", unfit);
      return null;
    }
    CutSheet.Line line =
        new CutSheet.Line(
            id(entry, at, faults),
            name,
            form,
            material.id(),
            material.code(),
            quantity,
            removed,
            sizes);
    if (sound && faults.none()) {
      try {
        cut(line, stock);
      } catch (IllegalArgumentException impossible) {
        faults.add(
            at + (form == CutForm.PARABOLIC_EDGES ? CutSize.DEPTH.word() : form.kind()),
            String.valueOf(impossible.getMessage()));
      }
    }
    return line;
  }

  /**
   * Why a material cannot stand in a line, as a sentence; null where it can.
   *
   * @param stock what it weighs; null where that is not known, or where it goes by its fill power
   */
  static @Nullable String unfit(CutForm form, Material material, @Nullable Stock stock) {
    if (form.per().isEmpty() || (stock != null && stock.per() == form.per().get())) {
      return null;
    }
    return material.code()
        + " is "
        + material.kind().word()
        + ", known "
        + (stock != null
            ? words(stock.per())
            : material.fillPower().isPresent() ? "by its fill power" : "by no mass yet")
        + ": a "
        + form.kind()
        + " wants one known "
        + words(form.per().get())
        + ".";
  }

  private static @Nullable UUID id(Parts.CutEntry entry, String at, Faults faults) {
    String typed = faults.optionalText(at + "id", entry.id(), "the id", 60);
    try {
      return typed == null ? null : UUID.fromString(typed);
    } catch (IllegalArgumentException notAnId) {
      faults.add(at + "id", "Give the id of a line as it was answered, or leave it out.");
      return null;
    }
  }

  private static String words(Stock.Per per) {
    return switch (per) {
      case SQUARE_METRE -> "by mass per area";
      case METRE -> "by mass per length";
      case PIECE -> "by the piece";
    };
  }

  private static @Nullable CutForm form(Parts.CutEntry entry, String at, Faults faults) {
    String kind = faults.text(at + "kind", entry.kind(), "the kind of line", 30);
    String shape = faults.optionalText(at + "shape", entry.shape(), "the shape", 30);
    CutForm form = CutForm.of(kind, shape).orElse(null);
    if (form != null || kind.isEmpty()) {
      return form;
    }
    List<String> shapes = new ArrayList<>();
    for (CutForm each : CutForm.values()) {
      if (each.kind().equals(kind)) {
        each.shape().ifPresent(shapes::add);
      }
    }
    if (!shapes.isEmpty()) {
      faults.add(at + "shape", "Say which shape: " + String.join(", ", shapes) + ".");
    } else if (CutForm.of(kind, null).isPresent()) {
      faults.add(at + "shape", "Only a panel has a shape.");
    } else {
      faults.add(
          at + "kind",
          "Say panel, length, seam, each or fill; read \"" + Faults.shortened(kind) + "\".");
    }
    return null;
  }

  private static Map<CutSize, CutSheet.Given> sizes(
      Parts.CutEntry entry, CutForm form, String at, Faults faults) {
    Map<CutSize, CutSheet.Given> sizes = new EnumMap<>(CutSize.class);
    for (CutSize size : CutSize.values()) {
      String field = at + size.word();
      String typed = faults.optionalText(field, entry.sizes().get(size), "the size", 200);
      if (typed == null) {
        if (form.wanted().contains(size)) {
          faults.add(field, "Give the " + size.words() + ", such as " + size.example() + ".");
        }
      } else if (!form.has(size)) {
        faults.add(field, "Leave it out: a " + form.words() + " has no " + size.words() + ".");
      } else {
        Kind kind = size.kind().orElse(null);
        BigDecimal amount =
            kind == null
                ? number(size, field, typed, faults)
                : faults.read(field, () -> amount(size, kind, typed));
        if (amount != null) {
          sizes.put(size, new CutSheet.Given(amount, typed));
        }
      }
    }
    together(form, sizes, entry, at, faults);
    return sizes;
  }

  /** What goes together or not at all. */
  private static void together(
      CutForm form,
      Map<CutSize, CutSheet.Given> sizes,
      Parts.CutEntry entry,
      String at,
      Faults faults) {
    Map<CutSize, @Nullable String> typed = entry.sizes();
    if (form == CutForm.SEAM) {
      String stitch = faults.optionalText(at + "stitch", entry.stitch(), "the stitch", 30);
      boolean byGeometry =
          typed.get(CutSize.SEAM_THICKNESS) != null || typed.get(CutSize.STITCH_LENGTH) != null;
      if (stitch != null && !stitch.equals("301")) {
        faults.add(
            at + "stitch",
            "The geometry of stitch type 301 is known here; of another, give the ratio of thread to seam.");
      }
      if ((stitch != null || byGeometry) && typed.get(CutSize.RATIO) != null) {
        faults.add(at + "ratio", "Give the ratio or the stitch, not both.");
      } else if (stitch != null || byGeometry) {
        want(CutSize.SEAM_THICKNESS, typed, at, faults);
        want(CutSize.STITCH_LENGTH, typed, at, faults);
      }
    } else if (entry.stitch() != null) {
      faults.add(at + "stitch", "Only a seam has stitches.");
    }
    if (form == CutForm.FILL) {
      boolean byVolume =
          typed.get(CutSize.AREA) != null
              || typed.get(CutSize.LOFT) != null
              || typed.get(CutSize.FILL_POWER) != null;
      if (byVolume && typed.get(CutSize.MASS) != null) {
        faults.add(at + "mass", "Give the mass, or area, loft and fill power, not both.");
      } else if (byVolume) {
        want(CutSize.AREA, typed, at, faults);
        want(CutSize.LOFT, typed, at, faults);
        want(CutSize.FILL_POWER, typed, at, faults);
      } else {
        want(CutSize.MASS, typed, at, faults);
      }
    }
  }

  private static void want(
      CutSize size, Map<CutSize, @Nullable String> typed, String at, Faults faults) {
    if (typed.get(size) == null) {
      faults.add(
          at + size.word(), "Give the " + size.words() + ", such as " + size.example() + ".");
    }
  }

  /** Allowances may be nothing; a size is above 0. */
  private static BigDecimal amount(CutSize size, Kind kind, String typed) {
    boolean allowance =
        size == CutSize.ALLOWANCE
            || size == CutSize.LENGTH_ALLOWANCE
            || size == CutSize.WIDTH_ALLOWANCE;
    Quantity read = Quantity.read(typed, kind, defaultUnit(kind));
    return new BigDecimal(
            (allowance ? read.notNegative() : read.positive()).in(kind.base()).value())
        .setScale(DECIMALS, RoundingMode.HALF_EVEN);
  }

  /** A bare length is in millimetres, as makers cut. */
  private static Unit defaultUnit(Kind kind) {
    return kind == Kind.LENGTH ? Unit.MILLIMETRE : kind.base();
  }

  private static @Nullable BigDecimal number(
      CutSize size, String field, String typed, Faults faults) {
    try {
      BigDecimal number = new BigDecimal(typed);
      if (number.signum() > 0
          && number.compareTo(new BigDecimal(100_000)) < 0
          && number.scale() <= 6) {
        return number;
      }
    } catch (NumberFormatException notANumber) {
      // said below
    }
    faults.add(
        field,
        "Give the "
            + size.words()
            + " as a number above 0, such as "
            + size.example()
            + "; read \""
            + Faults.shortened(typed)
            + "\".");
    return null;
  }
}
