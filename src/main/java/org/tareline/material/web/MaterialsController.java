package org.tareline.material.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.material.MassPer;
import org.tareline.material.Material;
import org.tareline.material.MaterialKind;
import org.tareline.material.MaterialMass;
import org.tareline.material.Materials;
import org.tareline.material.Nominal;
import org.tareline.material.OnHand;
import org.tareline.material.StrengthKind;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.site.FormFields.Choice;
import org.tareline.units.Force;
import org.tareline.units.MassStyle;
import org.tareline.units.Quantity;

/** The materials of a ledger as a table and as a file. */
@Controller
class MaterialsController {

  /** What was asked for, as typed; what makes no sense is taken as not asked. */
  record Asked(
      @Nullable String text, @Nullable String kind, @Nullable String sort, @Nullable String order) {

    String words() {
      return text == null ? "" : text.strip();
    }

    @Nullable MaterialKind materialKind() {
      return kind == null ? null : MaterialKind.of(kind).orElse(null);
    }

    public boolean filtered() {
      return !words().isEmpty() || materialKind() != null;
    }

    Column column() {
      return Arrays.stream(Column.values())
          .filter(column -> column.word().equals(sort))
          .findFirst()
          .orElse(Column.CODE);
    }

    boolean descending() {
      return "descending".equals(order);
    }
  }

  record Line(Material material, MaterialMass mass, String onHand) {}

  /** A column that the table is sorted by; what is not known comes last either way. */
  enum Column {
    CODE("Code", "", line -> Codes.key(line.material().code())),
    NAME("Name", "", line -> line.material().name().toLowerCase(Locale.ROOT)),
    MASS("Mass", "mass", line -> ofUse(line, MassPer::grams)),
    UNCERTAINTY("±", "mass mass--u", line -> ofUse(line, MassPer::expandedUncertainty)),
    UNIT("Unit", "", line -> ofUse(line, MassPer::per)),
    FROM("Mass is", "", line -> line.mass().used()),
    KIND("Kind", "", line -> line.material().kind()),
    WIDTH("Width", "number", line -> line.material().width().orElse(null)),
    STRENGTH(
        "Strength", "number", line -> line.material().strength().map(Quantity::force).orElse(null));

    private final String label;
    private final String look;
    private final Comparator<Line> ascending;
    private final Comparator<Line> descending;

    <T extends Comparable<? super T>> Column(
        String label, String look, Function<Line, @Nullable T> key) {
      this.label = label;
      this.look = look;
      this.ascending = Comparator.comparing(key, Comparator.nullsLast(Comparator.naturalOrder()));
      this.descending = Comparator.comparing(key, Comparator.nullsLast(Comparator.reverseOrder()));
    }

    String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    private static <T> @Nullable T ofUse(Line line, Function<MassPer, T> figure) {
      MassPer used = line.mass().inUse();
      return used == null ? null : figure.apply(used);
    }
  }

  /**
   * The heading of a column, which sorts by it.
   *
   * @param sorted {@code ascending} or {@code descending}; null where it is sorted by another
   */
  record Head(
      @Nullable String heard, String label, String look, String address, @Nullable String sorted) {}

  record Row(
      String code,
      String name,
      String kind,
      @Nullable PerFigure figure,
      String from,
      String width,
      String strength,
      String stock,
      String price) {}

  record Page(
      Asked asked,
      String caption,
      List<Head> heads,
      List<Row> rows,
      List<Choice> kinds,
      String csv,
      String safeCells,
      boolean noneAtAll) {}

  private final Materials materials;

  MaterialsController(Materials materials) {
    this.materials = materials;
  }

  @GetMapping("/materials")
  String materials(Member member, @ModelAttribute("asked") Asked asked, Model model) {
    List<Material> all = materials.all(member);
    List<Line> lines = lines(member, all, asked);
    model.addAttribute(
        "page",
        new Page(
            asked,
            caption(all.size(), lines.size(), asked),
            Arrays.stream(Column.values()).map(column -> head(asked, column)).toList(),
            lines.stream().map(line -> row(line, member.massStyle())).toList(),
            kinds(),
            address("/materials.csv", asked, asked.column(), asked.descending()),
            CsvTable.SAFE_CELLS,
            all.isEmpty()));
    return "material/materials";
  }

  @GetMapping("/materials.csv")
  ResponseEntity<byte[]> file(Member member, @ModelAttribute("asked") Asked asked) {
    CsvTable csv =
        new CsvTable(
            "code",
            "name",
            "kind",
            "mass used",
            "expanded uncertainty",
            "unit",
            "mass is",
            "swatches",
            "printed",
            "tolerance",
            "fill power [in3/oz]",
            "width [m]",
            "strength [N]",
            "strength is",
            "fibre",
            "price",
            "on hand",
            "colour",
            "note");
    for (Line line : lines(member, materials.all(member), asked)) {
      Material material = line.material();
      MassPer used = line.mass().inUse();
      csv.line(
          material.code(),
          material.name(),
          material.kind().word(),
          used == null ? null : used.grams(),
          used == null ? null : decimal(used.expandedUncertainty()),
          used == null ? null : Nominal.unit(used.per()).ucum(),
          line.mass().used() == null ? null : line.mass().used().word(),
          line.mass().swatches(),
          material.nominalTyped().orElse(null),
          material.toleranceTyped().orElse(null),
          material.fillPower().orElse(null),
          material.width().map(width -> width.metres()).orElse(null),
          material
              .strength()
              .map(Quantity::force)
              .map(Force::newtons)
              .map(MaterialsController::decimal)
              .orElse(null),
          material.strengthKind().map(StrengthKind::word).orElse(null),
          material.fibre().map(fibre -> fibre.word()).orElse(null),
          material.priceTyped().orElse(null),
          line.onHand(),
          material.colour().orElse(null),
          material.note().orElse(null));
    }
    return csv.asFile("materials.csv");
  }

  private static BigDecimal decimal(double number) {
    return new BigDecimal(number).round(new MathContext(15));
  }

  private List<Line> lines(Member member, List<Material> all, Asked asked) {
    String key = Codes.key(asked.words());
    List<Material> found =
        all.stream()
            .filter(
                material -> asked.materialKind() == null || material.kind() == asked.materialKind())
            .filter(
                material ->
                    Codes.key(material.code()).contains(key)
                        || material.name().toLowerCase(Locale.ROOT).contains(key))
            .toList();
    Map<Long, MaterialMass> masses = materials.masses(member, found);
    Map<Long, OnHand> onHand = materials.onHand(member, found);
    Column column = asked.column();
    return found.stream()
        .map(
            material ->
                new Line(
                    material,
                    Objects.requireNonNull(masses.get(material.id())),
                    Optional.ofNullable(onHand.get(material.id()))
                        .map(OnHand::typedOrWords)
                        .orElse("")))
        .sorted(
            (asked.descending() ? column.descending : column.ascending)
                .thenComparing(Column.CODE.ascending))
        .toList();
  }

  private static String caption(int all, int found, Asked asked) {
    List<String> words = new ArrayList<>();
    words.add(
        found
            + (asked.filtered() ? " of " + all : "")
            + (all == 1 ? " material" : " materials")
            + (asked.words().isEmpty() ? "" : " holding “" + asked.words() + "”"));
    MaterialKind kind = asked.materialKind();
    if (kind != null) {
      words.add(kind.word());
    }
    return String.join(", ", words) + "; the mass that cut lists use, ± at 95 %";
  }

  private static Head head(Asked asked, Column column) {
    boolean sorted = asked.column() == column;
    return new Head(
        column == Column.UNCERTAINTY ? "Uncertainty, " : null,
        column.label,
        column.look,
        address("/materials", asked, column, sorted && !asked.descending()),
        sorted ? asked.descending() ? "descending" : "ascending" : null);
  }

  /** An address that carries along all that was asked for. */
  private static String address(String path, Asked asked, Column column, boolean descending) {
    UriComponentsBuilder address = UriComponentsBuilder.fromPath(path);
    if (!asked.words().isEmpty()) {
      address.queryParam("text", "{text}");
    }
    MaterialKind kind = asked.materialKind();
    if (kind != null) {
      address.queryParam("kind", kind.word());
    }
    if (column != Column.CODE || descending) {
      address
          .queryParam("sort", column.word())
          .queryParam("order", descending ? "descending" : "ascending");
    }
    return address.encode().build(Map.of("text", asked.words())).toString();
  }

  private static Row row(Line line, MassStyle style) {
    Material material = line.material();
    MassPer used = line.mass().inUse();
    return new Row(
        material.code(),
        material.name(),
        material.kind().word(),
        used == null ? null : PerFigure.of(used, style),
        from(line),
        material.widthTyped().orElse(""),
        material.strength().map(Quantity::text).orElse("not known"),
        line.onHand(),
        material.priceTyped().orElse(""));
  }

  private static String from(Line line) {
    MaterialMass.Use used = line.mass().used();
    if (used == null) {
      return line.material()
          .fillPower()
          .map(power -> "fill power " + power.toPlainString())
          .orElse("not known");
    }
    int swatches = line.mass().swatches();
    return switch (used) {
      case NOMINAL -> "as printed";
      case WEIGHED -> "weighed, " + swatches + (swatches == 1 ? " swatch" : " swatches");
      case LEARNED -> "learned from parts";
    };
  }

  static List<Choice> kinds() {
    return Stream.of(MaterialKind.values())
        .map(kind -> new Choice(kind.word(), kind.word()))
        .toList();
  }
}
