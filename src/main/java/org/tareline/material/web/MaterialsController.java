package org.tareline.material.web;

import java.math.BigDecimal;
import java.math.MathContext;
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
import org.springframework.web.bind.annotation.RequestParam;
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
import org.tareline.site.TableAsked;
import org.tareline.site.TableColumn;
import org.tareline.site.TableOrder;
import org.tareline.site.TableOrder.Head;
import org.tareline.units.Force;
import org.tareline.units.MassStyle;
import org.tareline.units.Quantity;

/** The materials of a ledger as a table and as a file. */
@Controller
class MaterialsController {

  record Line(Material material, MaterialMass mass, String onHand) {

    private <T> @Nullable T ofUse(Function<MassPer, T> figure) {
      MassPer used = mass.inUse();
      return used == null ? null : figure.apply(used);
    }
  }

  private static final List<TableColumn<Line>> COLUMNS =
      List.of(
          TableColumn.of("code", "Code", "", line -> Codes.key(line.material().code())),
          TableColumn.of(
              "name", "Name", "", line -> line.material().name().toLowerCase(Locale.ROOT)),
          TableColumn.of("mass", "Mass", "mass", line -> line.ofUse(MassPer::grams)),
          TableColumn.uncertainty(
              "uncertainty", "Uncertainty, ", line -> line.ofUse(MassPer::expandedUncertainty)),
          TableColumn.of("unit", "Unit", "", line -> line.ofUse(MassPer::per)),
          TableColumn.of("from", "Mass is", "", line -> line.mass().used()),
          TableColumn.of("kind", "Kind", "", line -> line.material().kind()),
          TableColumn.of("width", "Width", "number", line -> line.material().width().orElse(null)),
          TableColumn.of(
              "strength",
              "Strength",
              "number",
              line -> line.material().strength().map(Quantity::force).orElse(null)));

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

  /**
   * The page.
   *
   * @param kind the word of the one asked for; null for all
   */
  record Page(
      TableAsked asked,
      @Nullable String kind,
      String caption,
      List<Head> heads,
      List<Row> rows,
      List<Choice> kinds,
      String csv,
      boolean noneAtAll) {}

  private final Materials materials;

  MaterialsController(Materials materials) {
    this.materials = materials;
  }

  @GetMapping("/materials")
  String materials(
      Member member,
      @ModelAttribute("asked") TableAsked asked,
      @RequestParam(defaultValue = "") String kind,
      Model model) {
    List<Material> all = materials.all(member);
    MaterialKind only = MaterialKind.of(kind).orElse(null);
    TableOrder<Line> order = new TableOrder<>(asked, COLUMNS);
    List<Line> lines = lines(member, all, asked, only, order);
    Map<String, String> filters = only == null ? Map.of() : Map.of("kind", only.word());
    model.addAttribute(
        "page",
        new Page(
            asked,
            only == null ? null : only.word(),
            asked.found(lines.size(), all.size(), "material", asked.filtered() || only != null)
                + (only == null ? "" : ", " + only.word())
                + "; the mass that cut lists use, ± at 95 %",
            order.heads("/materials", filters),
            lines.stream().map(line -> row(line, member.massStyle())).toList(),
            kinds(),
            order.address("/materials.csv", filters),
            all.isEmpty()));
    return "material/materials";
  }

  @GetMapping("/materials.csv")
  ResponseEntity<byte[]> file(
      Member member,
      @ModelAttribute("asked") TableAsked asked,
      @RequestParam(defaultValue = "") String kind) {
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
    for (Line line :
        lines(
            member,
            materials.all(member),
            asked,
            MaterialKind.of(kind).orElse(null),
            new TableOrder<>(asked, COLUMNS))) {
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

  private List<Line> lines(
      Member member,
      List<Material> all,
      TableAsked asked,
      @Nullable MaterialKind only,
      TableOrder<Line> order) {
    List<Material> found =
        all.stream()
            .filter(material -> only == null || material.kind() == only)
            .filter(material -> asked.finds(material.code(), material.name()))
            .toList();
    Map<Long, MaterialMass> masses = materials.masses(member, found);
    Map<Long, OnHand> onHand = materials.onHand(member, found);
    return order.sorted(
        found.stream()
            .map(
                material ->
                    new Line(
                        material,
                        Objects.requireNonNull(masses.get(material.id())),
                        Optional.ofNullable(onHand.get(material.id()))
                            .map(OnHand::typedOrWords)
                            .orElse(""))));
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
