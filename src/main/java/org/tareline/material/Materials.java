package org.tareline.material;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Lazy;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.cutting.Stock;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Air;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Pooled;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.Quantity;
import org.tareline.weighing.Condition;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** The materials of a ledger, and what they weigh. */
@Service
@Transactional(readOnly = true)
public class Materials implements ReadAgain {

  static final String KIND = "material";

  private static final BigDecimal LEAST_FILL_POWER = BigDecimal.TEN;
  private static final BigDecimal MOST_FILL_POWER = BigDecimal.valueOf(2000);

  static final String MEASURE_FIRST =
      "Give a nominal mass first: it says whether the stock is a length or a count.";

  /**
   * A material as somebody typed it.
   *
   * @param kind a word of {@link MaterialKind}
   * @param nominal its mass as a seller prints it, such as {@code 54 g/m²}; may be left out where
   *     swatches are to say it
   * @param nominalWidth the width that a nominal mass per running length of cloth is for
   * @param tolerance such as {@code 5 %} or {@code 2 g/m²}; the ledger's own when left out
   * @param fillPower of insulation that goes by it, in in³/oz
   * @param width what of the width of the roll can be used
   * @param strengthKind a word of {@link StrengthKind}; minimum breaking when left out
   * @param fibre a word of {@link Fibre}, where it is known
   * @param stock how much is on hand
   * @param use a word of {@link MaterialMass.Use}; by the swatches when left out
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String kind,
      @Nullable String nominal,
      @Nullable String nominalWidth,
      @Nullable String tolerance,
      @Nullable String fillPower,
      @Nullable String width,
      @Nullable String strength,
      @Nullable String strengthKind,
      @Nullable String fibre,
      @Nullable String price,
      @Nullable String colour,
      @Nullable String note,
      @Nullable String stock,
      @Nullable String use) {}

  /** An entry that could be read. */
  record Read(
      String code,
      String name,
      MaterialKind kind,
      @Nullable Nominal nominal,
      @Nullable String toleranceTyped,
      @Nullable BigDecimal fillPower,
      @Nullable Length width,
      @Nullable String widthTyped,
      @Nullable String strengthTyped,
      @Nullable StrengthKind strengthKind,
      @Nullable Fibre fibre,
      @Nullable String priceTyped,
      @Nullable String colour,
      @Nullable String note,
      @Nullable String stockTyped,
      StockEntries.@Nullable Read counted,
      MaterialMass.@Nullable Use chosen) {}

  private final MaterialRepository materials;
  private final SwatchRepository swatches;
  private final StockEntryRepository stock;
  private final Weighings weighings;
  private final Revisions revisions;
  private final Clock clock;
  private final CutFrom cutFrom;

  Materials(
      MaterialRepository materials,
      SwatchRepository swatches,
      StockEntryRepository stock,
      Weighings weighings,
      Revisions revisions,
      Clock clock,
      // Lazy, since those who cut from materials are asked for them.
      @Lazy CutFrom cutFrom) {
    this.materials = materials;
    this.swatches = swatches;
    this.stock = stock;
    this.weighings = weighings;
    this.revisions = revisions;
    this.clock = clock;
    this.cutFrom = cutFrom;
  }

  public List<Material> all(Member member) {
    return materials.findByLedgerIdOrderByCodeKey(member.ledgerId());
  }

  /**
   * The materials after a code, by code; from the first where it is empty.
   *
   * @param after need not be the code of a material
   */
  public List<Material> after(Member member, String after, int most) {
    return materials.findByLedgerIdAndCodeKeyGreaterThanOrderByCodeKey(
        member.ledgerId(), Codes.key(after), Limit.of(most));
  }

  /** The material with this code, or that once had it. */
  public Optional<Material> find(Member member, String code) {
    return id(member, code).flatMap(id -> materials.findByLedgerIdAndId(member.ledgerId(), id));
  }

  private Optional<Long> id(Member member, String code) {
    return materials
        .idOf(member.ledgerId(), Codes.key(code))
        .or(() -> revisions.formerly(member, KIND, code));
  }

  public Material get(Member member, String code) {
    return find(member, code).orElseThrow(() -> new NotThere("material"));
  }

  public List<Material> byIds(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : materials.byIds(member.ledgerId(), ids.toArray(Long[]::new));
  }

  /** Those that have these codes now, or once had them, by the key of the code. */
  public Map<String, Material> byCodes(Member member, Collection<String> codes) {
    Map<String, Material> found = new HashMap<>();
    List<String> keys = codes.stream().map(Codes::key).distinct().toList();
    if (!keys.isEmpty()) {
      materials
          .byCodeKeys(member.ledgerId(), keys.toArray(String[]::new))
          .forEach(material -> found.put(Codes.key(material.code()), material));
      keys.stream()
          .filter(key -> !found.containsKey(key))
          .forEach(key -> find(member, key).ifPresent(material -> found.put(key, material)));
    }
    return found;
  }

  /** What each of these materials weighs, in a fixed number of queries. */
  public Map<Long, MaterialMass> masses(Member member, Collection<Material> of) {
    Map<Long, List<Estimate>> found = new HashMap<>();
    Map<Long, Material> byId = new HashMap<>();
    of.forEach(material -> byId.put(material.id(), material));
    if (!byId.isEmpty()) {
      List<Swatch> cut =
          swatches.ofMaterials(member.ledgerId(), byId.keySet().toArray(Long[]::new));
      Map<Long, Weighings.Newest> weighed =
          weighings.newestUsable(member, Subject.SWATCH, cut.stream().map(Swatch::id).toList());
      for (Swatch swatch : cut) {
        Weighings.Newest newest = weighed.get(swatch.id());
        Material material = byId.get(swatch.materialId());
        if (newest != null && material != null) {
          found
              .computeIfAbsent(material.id(), any -> new ArrayList<>())
              .add(swatch.units(massOf(member, material, newest.weighing())));
        }
      }
    }
    Map<Long, MaterialMass> masses = new HashMap<>();
    byId.forEach(
        (id, material) -> {
          List<Estimate> each = found.getOrDefault(id, List.of());
          Pooled pooled =
              each.isEmpty()
                  ? null
                  : Pooled.of("material:" + material.uuid(), "scatter of the swatches", each);
          masses.put(
              id,
              MaterialMass.of(
                  material.printed(member.statedTolerance()).orElse(null),
                  pooled,
                  each.size(),
                  material));
        });
    return masses;
  }

  public MaterialMass mass(Member member, Material material) {
    return Objects.requireNonNull(masses(member, List.of(material)).get(material.id()));
  }

  /** What something of a material weighs by a weighing of it, the air of its day with it. */
  public Estimate massOf(Member member, Material material, Weighing weighing) {
    Estimate mass = weighing.estimate();
    return weighing.condition() == Condition.AIRED
        ? mass
        : material
            .fibre()
            .map(
                fibre ->
                    mass.plus(
                        Air.of(
                            fibre,
                            weighing.weighedAt().atZone(clock.getZone()).toLocalDate(),
                            mass.value(),
                            member.settings().air(fibre).doubleValue())))
            .orElse(mass);
  }

  /**
   * What cut lists are to take for each of these materials, by its row, in a fixed number of
   * queries. One of which nothing is known is left out, and so is a filling that goes by its fill
   * power: what is filled in is weighed out, and has the mass and the tolerance that its cut list
   * says.
   */
  public Map<Long, Stock> stocks(Member member, Collection<Material> of) {
    return stocks(member, of, MaterialMass::inUse);
  }

  /**
   * The same by what is printed or by swatches, as if nothing learned had been taken; as learned
   * only where nothing else is known any more.
   */
  public Map<Long, Stock> stocksBeforeLearning(Member member, Collection<Material> of) {
    return stocks(member, of, mass -> mass.before() == null ? mass.inUse() : mass.before());
  }

  private Map<Long, Stock> stocks(
      Member member, Collection<Material> of, Function<MaterialMass, @Nullable MassPer> which) {
    Map<Long, MaterialMass> masses = masses(member, of);
    Map<Long, Stock> stocks = new HashMap<>();
    for (Material material : of) {
      MaterialMass mass = masses.get(material.id());
      Stock stock = mass == null ? null : MaterialMass.stock(material, which.apply(mass));
      if (stock != null) {
        stocks.put(material.id(), stock);
      }
    }
    return stocks;
  }

  /**
   * How much of each of these is on hand, in one query; one of which nobody said what its mass is
   * for is left out.
   */
  public Map<Long, OnHand> onHand(Member member, Collection<Material> of) {
    if (of.isEmpty()) {
      return Map.of();
    }
    Map<Long, List<StockEntry>> standing =
        stock
            .standing(member.ledgerId(), of.stream().map(Material::id).toArray(Long[]::new))
            .stream()
            .collect(Collectors.groupingBy(StockEntry::materialId));
    Map<Long, OnHand> onHand = new HashMap<>();
    for (Material material : of) {
      OnHand.of(material, standing.getOrDefault(material.id(), List.of()))
          .ifPresent(there -> onHand.put(material.id(), there));
    }
    return onHand;
  }

  /**
   * Puts a material into the ledger.
   *
   * @throws Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Material add(Member member, Entry entry) {
    Read read = read(member, entry, null);
    Material material =
        new Material(member.ledgerId(), read, clock.instant().truncatedTo(ChronoUnit.MICROS));
    Revisions.write(read.code(), () -> materials.save(material));
    revisions.keep(member, KIND, material.id(), material.revision(), material.kept());
    return material;
  }

  /**
   * Describes a material anew; the earlier description is kept.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws NotThere if there is no such material
   * @throws Refusal if the entry cannot be read, the code is taken or somebody saved since
   */
  @Transactional
  public Material change(Member member, String code, Entry entry, @Nullable Integer expected) {
    Material material = locked(member, code);
    Revisions.guard("material " + material.code(), material.revision(), expected);
    Read read = read(member, entry, material);
    revisions.recode(member, KIND, material.id(), material.code(), read.code());
    material.describe(read);
    Revisions.write(read.code(), materials::flush);
    cutFrom
        .unfit(member, material)
        .ifPresent(
            why -> {
              throw Refusal.of(
                  Refusal.Kind.CONFLICT,
                  "nominal",
                  "Add another material instead, for cut lists use this one. " + why);
            });
    if (read.counted() != null) {
      stock.save(
          new StockEntry(
              material,
              member.ledgerId(),
              read.counted(),
              clock.instant().truncatedTo(ChronoUnit.MICROS),
              member.accountId()));
    }
    revisions.keep(member, KIND, material.id(), material.revision(), material.kept());
    return material;
  }

  @Override
  public String table() {
    return "material";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    return ReadAgain.each(
        byIds(member, ids),
        Material::id,
        material -> {
          Faults faults = new Faults();
          if (!material.saysAs(read(member, material.kept().entry(), material))) {
            faults.add("nominal", "Let the figures say what is typed beside them.");
          }
          // Cut lists that are new are read themselves; and nobody may know any more what it
          // weighs.
          if (faults.none()
              && material.revision() > 1
              && !stocks(member, List.of(material)).isEmpty()) {
            cutFrom.unfit(member, material).ifPresent(why -> faults.add("nominal", why));
          }
          faults.refuseIfAny();
        });
  }

  /** The material with this code, for changing it: nobody else does until this transaction ends. */
  Material locked(Member member, String code) {
    return id(member, code)
        .flatMap(id -> materials.lock(member.ledgerId(), id))
        .orElseThrow(() -> new NotThere("material"));
  }

  private Read read(Member member, Entry entry, @Nullable Material itself) {
    Faults faults = new Faults();
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    String kindTyped = faults.text("kind", entry.kind(), "the kind of material", 60);
    MaterialKind kind = MaterialKind.of(kindTyped).orElse(null);
    if (kind == null && !kindTyped.isEmpty()) {
      faults.add(
          "kind",
          "Say fabric, netting, cord, webbing, tape, hardware, thread, insulation or other; read \""
              + Faults.shortened(kindTyped)
              + "\".");
    }
    BigDecimal fillPower = fillPower(faults, kind, entry);
    Nominal nominal = nominal(faults, kind, entry);
    String toleranceTyped = tolerance(faults, nominal, entry);
    Per per = per(kind, nominal);
    String widthTyped = faults.optionalText("width", entry.width(), "the width", 200);
    Length width = widthTyped == null ? null : length(faults, "width", widthTyped);
    if (widthTyped != null && (per == Per.PIECE || fillPower != null)) {
      faults.add("width", "Leave the width out: this has no roll to be cut from.");
    }
    String strengthTyped = faults.optionalText("strength", entry.strength(), "the strength", 200);
    if (strengthTyped != null) {
      faults.read("strength", () -> Quantity.read(strengthTyped, Kind.FORCE, null).positive());
    }
    StrengthKind strengthKind = StrengthKind.read(faults, "", strengthTyped, entry.strengthKind());
    String fibreTyped = faults.optionalText("fibre", entry.fibre(), "the fibre", 60);
    Fibre fibre = fibreTyped == null ? null : Fibre.of(fibreTyped).orElse(null);
    if (fibreTyped != null && fibre == null) {
      faults.add(
          "fibre",
          "Say nylon, polyester, hmpe, cotton, wool or down, or leave it out; read \""
              + Faults.shortened(fibreTyped)
              + "\".");
    }
    String priceTyped = faults.optionalText("price", entry.price(), "the price", 200);
    if (priceTyped != null && Price.read(priceTyped).isEmpty()) {
      faults.add(
          "price",
          "Give an amount, a currency of three letters and what that buys, such as 12.50 EUR/m; read \""
              + Faults.shortened(priceTyped)
              + "\". What it buys is an m, yd, ft, m², yd², ft², kg, g, lb, oz or each.");
    }
    String colour = faults.optionalText("colour", entry.colour(), "the colour", 200);
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    OnHand.Measure measure = OnHand.Measure.of(per, fillPower != null);
    List<StockEntry> record =
        itself == null ? List.of() : stock.standing(member.ledgerId(), new Long[] {itself.id()});
    String stockTyped = faults.optionalText("stock", entry.stock(), "what is on hand", 200);
    StockEntries.Read counted = null;
    if (itself != null && !record.isEmpty()) {
      counted = counted(faults, itself, record, measure, stockTyped);
      stockTyped = itself.stockTyped().orElse(null);
    } else if (stockTyped != null && measure != null) {
      measure.read(faults, "stock", stockTyped);
    } else if (stockTyped != null && faults.none()) {
      faults.add("stock", MEASURE_FIRST);
    }
    String useTyped = faults.optionalText("use", entry.use(), "which mass is used", 60);
    MaterialMass.Use use = MaterialMass.Use.of(useTyped);
    if (useTyped != null && use == null) {
      faults.add(
          "use",
          "Say nominal or weighed, or leave it out; read \"" + Faults.shortened(useTyped) + "\".");
    }
    boolean learned = use == MaterialMass.Use.LEARNED;
    if (learned && (itself == null || itself.taken().isEmpty())) {
      faults.add(
          "use", "Nothing learned is in use here yet: take what the parts say first, by itself.");
    }
    if (faults.none()) {
      refuseConflicts(faults, member, code, itself, per, fillPower != null, learned);
    }
    faults.refuseIfAny();
    return new Read(
        code,
        name,
        kind == null ? MaterialKind.OTHER : kind,
        nominal,
        toleranceTyped,
        fillPower,
        width,
        widthTyped,
        strengthTyped,
        strengthKind,
        fibre,
        priceTyped,
        colour,
        note,
        stockTyped,
        counted,
        use);
  }

  private void refuseConflicts(
      Faults faults,
      Member member,
      String code,
      @Nullable Material itself,
      @Nullable Per per,
      boolean filling,
      boolean learned) {
    Optional<Material> other =
        materials.findByLedgerIdAndCodeKey(member.ledgerId(), Codes.key(code));
    if (other.isPresent() && (itself == null || other.get().id() != itself.id())) {
      faults.conflict(
          "code", "Choose another code: " + code + " is " + other.get().name() + " already.");
    } else {
      revisions.refuseFormerCode(member, KIND, code, itself == null ? null : itself.id(), faults);
    }
    if (itself != null
        && !itself.per().equals(filling ? Optional.empty() : Optional.ofNullable(per))
        && (learned || swatches.existsByLedgerIdAndMaterialId(member.ledgerId(), itself.id()))) {
      faults.conflict(
          "kind",
          "Keep what its mass is for, or add another material: "
              + (learned
                  ? "what was learned of it is for that."
                  : "its swatches were cut for that."));
    }
  }

  private static @Nullable Per per(@Nullable MaterialKind kind, @Nullable Nominal nominal) {
    return nominal != null ? nominal.per() : kind == null ? null : kind.only().orElse(null);
  }

  private static @Nullable Nominal nominal(
      Faults faults, @Nullable MaterialKind kind, Entry entry) {
    String typed = faults.optionalText("nominal", entry.nominal(), "the nominal mass", 200);
    String widthTyped =
        faults.optionalText("nominalWidth", entry.nominalWidth(), "the width it is for", 60);
    if (kind == null) {
      return null;
    }
    if (typed == null) {
      if (widthTyped != null) {
        faults.add("nominal", "Give the nominal mass that the width belongs to.");
      } else if (kind.only().isEmpty()) {
        faults.add(
            "nominal",
            "Give the nominal mass, such as 54 g/m², 3.1 g/m or 4.2 g: it says what the mass is for.");
      }
      return null;
    }
    return typed.length() > 120 ? tooLong(faults) : Nominal.read(faults, kind, typed, widthTyped);
  }

  private static @Nullable Nominal tooLong(Faults faults) {
    faults.add("nominal", "Shorten the nominal mass: a figure and its unit are enough.");
    return null;
  }

  private static @Nullable String tolerance(Faults faults, @Nullable Nominal nominal, Entry entry) {
    String typed = faults.optionalText("tolerance", entry.tolerance(), "the tolerance", 200);
    if (typed == null) {
      return null;
    }
    if (entry.nominal() == null || entry.nominal().isBlank()) {
      faults.add("nominal", "Give the nominal mass that the tolerance belongs to.");
    } else if (nominal != null) {
      BigDecimal halfWidth = faults.read("tolerance", () -> Material.tolerance(nominal, typed));
      if (halfWidth != null && halfWidth.compareTo(nominal.grams()) >= 0) {
        faults.add(
            "tolerance", "Give a tolerance below the nominal mass itself; read " + typed + ".");
      }
    }
    return typed;
  }

  private static @Nullable BigDecimal fillPower(
      Faults faults, @Nullable MaterialKind kind, Entry entry) {
    String typed = faults.optionalText("fillPower", entry.fillPower(), "the fill power", 60);
    if (typed == null) {
      return null;
    }
    if (kind != null && kind != MaterialKind.INSULATION) {
      faults.add(
          "fillPower", "Only insulation has a fill power; leave it out of " + kind.word() + ".");
      return null;
    }
    if (entry.nominal() != null && !entry.nominal().isBlank()) {
      faults.add(
          "fillPower",
          "Give the mass per area of a sheet, or the fill power of a filling, not both.");
    }
    if (typed.matches("[0-9]{1,4}(\\.[0-9]{1,4})?")) {
      BigDecimal read = new BigDecimal(typed);
      if (read.compareTo(LEAST_FILL_POWER) >= 0 && read.compareTo(MOST_FILL_POWER) <= 0) {
        return read;
      }
    }
    faults.add(
        "fillPower",
        "Give the fill power as a number of in³ an ounce, from 10 to 2000, such as 850; read \""
            + Faults.shortened(typed)
            + "\".");
    return null;
  }

  private static @Nullable Length length(Faults faults, String field, String typed) {
    Quantity read = faults.read(field, () -> Quantity.read(typed, Kind.LENGTH, null).positive());
    return read == null ? null : read.length();
  }

  /** That somebody counted the stock, where what is given is not what its record comes to. */
  private StockEntries.@Nullable Read counted(
      Faults faults,
      Material itself,
      List<StockEntry> record,
      OnHand.@Nullable Measure measure,
      @Nullable String typed) {
    if (measure == null || measure != itself.measure().orElse(null)) {
      faults.conflict("kind", "Keep what its mass is for: its stock is counted in that.");
      return null;
    }
    BigDecimal there = OnHand.of(itself, record).map(OnHand::amount).orElse(null);
    BigDecimal given = typed == null ? null : measure.reread(typed);
    if (typed == null || (there != null && given != null && there.compareTo(given) == 0)) {
      return null;
    }
    BigDecimal amount = measure.read(faults, "stock", typed);
    return amount == null
        ? null
        : new StockEntries.Read(
            StockEntry.Kind.COUNTED,
            amount,
            typed,
            null,
            null,
            null,
            clock.instant().truncatedTo(ChronoUnit.MICROS));
  }
}
