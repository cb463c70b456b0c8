package org.tareline.material;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.Quantity;
import org.tareline.units.Tolerance;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * The swatches of materials. What the pan holds is so many pieces of one size, cut by one rule:
 * they are off alike, so that more of them make the weight surer and not the size.
 */
@Service
@Transactional(readOnly = true)
public class Swatches implements ReadAgain {

  /**
   * How far off a side may be where nothing is said, both its ends together: common practice, no
   * source.
   */
  public static final String COMMON_SIZE_ERROR = "1 mm";

  /** From here on a swatch by itself is said to be too small, as U over the mass. */
  private static final double TOO_UNSURE = 0.01;

  private static final String LARGER =
      "The small piece of ASTM D3776, of 100 cm², decides no more on a scale that reads to 0.01 g;"
          + " a larger one, such as a strip over the whole width of the roll (ISO 3801), or several"
          + " on the pan tell more.";

  private static final String LONGER = "A longer piece, or several on the pan, tell more.";

  /**
   * A swatch as somebody typed it, with the weighing of it.
   *
   * @param width of what goes by area
   * @param sizeError how far off each side may be, such as {@code 1 mm} or {@code 0.5 %}
   * @param place where on the roll it was cut
   */
  public record Entry(
      @Nullable String length,
      @Nullable String width,
      @Nullable String sizeError,
      @Nullable String place,
      Weighings.Entry weighing) {}

  /** A side that could be read. */
  record Edge(Length length, String typed, Length halfWidth) {}

  /** What could be read of the piece itself. */
  record Size(
      @Nullable Edge length,
      @Nullable Edge width,
      @Nullable String sizeErrorTyped,
      @Nullable String place) {}

  /**
   * A swatch with its weighing.
   *
   * @param mass what it says of the material
   * @param counts whether it is one of those that say what the material weighs
   * @param notes what is to be said about it, as sentences
   */
  public record Weighed(
      Swatch swatch, Weighings.Logged logged, MassPer mass, boolean counts, List<String> notes) {}

  private final SwatchRepository swatches;
  private final Materials materials;
  private final Weighings weighings;

  Swatches(SwatchRepository swatches, Materials materials, Weighings weighings) {
    this.swatches = swatches;
    this.materials = materials;
    this.weighings = weighings;
  }

  /** The swatches of a material, newest first, with those that were struck out. */
  public List<Weighed> of(Member member, Material material) {
    Map<Long, Swatch> cut =
        swatches.ofMaterials(member.ledgerId(), new Long[] {material.id()}).stream()
            .collect(Collectors.toMap(Swatch::id, swatch -> swatch));
    List<Weighed> weighed = new ArrayList<>();
    for (Weighings.Logged logged : weighings.historyOf(member, Subject.SWATCH, cut.keySet())) {
      Swatch swatch = cut.get(logged.subject().id());
      if (swatch != null) {
        weighed.add(weighed(member, material, swatch, logged));
      }
    }
    return weighed;
  }

  /** The materials that these swatches were cut from, by the row of the swatch. */
  public Map<Long, Material> materialsOf(Member member, Collection<Long> swatchIds) {
    if (swatchIds.isEmpty()) {
      return Map.of();
    }
    List<Swatch> cut = swatches.byIds(member.ledgerId(), swatchIds.toArray(Long[]::new));
    Map<Long, Material> byId =
        materials.byIds(member, cut.stream().map(Swatch::materialId).distinct().toList()).stream()
            .collect(Collectors.toMap(Material::id, material -> material));
    Map<Long, Material> found = new HashMap<>();
    cut.forEach(
        swatch ->
            Optional.ofNullable(byId.get(swatch.materialId()))
                .ifPresent(material -> found.put(swatch.id(), material)));
    return found;
  }

  /**
   * Logs a swatch.
   *
   * @throws NotThere if there is no such material
   * @throws org.tareline.site.Refusal with every fault of the entry; nothing has been written then
   */
  @Transactional
  public Weighed log(Member member, String code, Entry entry) {
    Material material = materials.locked(member, code);
    Faults faults = new Faults();
    Size size =
        size(faults, material, entry.length(), entry.width(), entry.sizeError(), entry.place());
    Weighing read = weighings.read(member, entry.weighing(), faults);
    faults.refuseIfAny();
    Swatch swatch = new Swatch(material, member.ledgerId(), size);
    refuseUnlessItFits(swatch, read);
    Swatch kept = swatches.save(swatch);
    Placed placed = Placed.swatch(kept.id(), read.pieceCount());
    Weighing weighing = weighings.log(read, List.of(placed));
    return weighed(member, material, kept, new Weighings.Logged(weighing, placed, 1, null));
  }

  @Override
  public String table() {
    return "swatch";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    Map<Long, Material> cutFrom = materialsOf(member, ids);
    return ReadAgain.each(
        swatches.byIds(member.ledgerId(), ids.toArray(Long[]::new)),
        Swatch::id,
        swatch -> {
          Faults faults = new Faults();
          Size size =
              size(
                  faults,
                  Objects.requireNonNull(cutFrom.get(swatch.id())),
                  swatch.lengthTyped().orElse(null),
                  swatch.widthTyped().orElse(null),
                  swatch.sizeErrorTyped().orElse(null),
                  swatch.place().orElse(null));
          if (faults.none() && !swatch.isOf(size)) {
            faults.add("length", "Let the figures say what is typed beside them.");
          }
          faults.refuseIfAny();
        });
  }

  /** A heavy speck could weigh more for its size than can be kept. */
  private static void refuseUnlessItFits(Swatch swatch, Weighing read) {
    Faults faults = new Faults();
    try {
      swatch.units(read.estimate());
    } catch (ArithmeticException tooHeavy) {
      faults.add("length", "Look at the size again: so small a piece cannot weigh that much.");
    }
    faults.refuseIfAny();
  }

  private Weighed weighed(
      Member member, Material material, Swatch swatch, Weighings.Logged logged) {
    Weighing weighing = logged.weighing();
    Per per =
        swatch.width().isPresent()
            ? Per.SQUARE_METRE
            : swatch.length().isPresent() ? Per.METRE : Per.PIECE;
    Estimate mass = swatch.units(materials.massOf(member, material, weighing));
    boolean counts = logged.voidReason() == null && weighing.condition().saysTheMass();
    return new Weighed(
        swatch, logged, new MassPer(per, mass), counts, notes(weighing, swatch, logged));
  }

  private static List<String> notes(Weighing weighing, Swatch swatch, Weighings.Logged logged) {
    List<String> notes = new ArrayList<>();
    if (logged.voidReason() != null) {
      return notes;
    }
    if (!weighing.condition().saysTheMass()) {
      notes.add(
          "Kept as a "
              + weighing.condition().word()
              + " weighing: only a dry or aired one says what a material weighs.");
    }
    // Without the air of the day: a larger piece would not help against that.
    Estimate alone = swatch.units(weighing.estimate());
    double unsure = alone.expandedUncertaintyInGrams() / alone.value().inGrams();
    if (unsure > TOO_UNSURE) {
      notes.add(
          String.format(
              Locale.ROOT,
              "By itself this swatch tells the mass to ± %s %%, so two digits at the most. %s",
              new BigDecimal(unsure * 100).round(new MathContext(2)).toPlainString(),
              swatch.width().isPresent() ? LARGER : LONGER));
    }
    if (!weighing.repeatabilityKnown().orElse(true)) {
      notes.add(
          "repeatability not known: with one reading, and none recorded of this scale, the ± covers"
              + " its resolution and span alone. A second reading would tell.");
    }
    return notes;
  }

  private static Size size(
      Faults faults,
      Material material,
      @Nullable String typedLength,
      @Nullable String typedWidth,
      @Nullable String typedError,
      @Nullable String typedPlace) {
    Per per = material.per().orElse(null);
    String errorTyped = faults.optionalText("sizeError", typedError, "the error", 200);
    String place = faults.optionalText("place", typedPlace, "the place", 200);
    String lengthTyped = faults.optionalText("length", typedLength, "the length", 200);
    String widthTyped = faults.optionalText("width", typedWidth, "the width", 200);
    if (per == null) {
      faults.add(
          "length",
          material.code() + " goes by its fill power: a swatch cannot say what it weighs.");
      return new Size(null, null, errorTyped, place);
    }
    if (per == Per.PIECE) {
      leaveOut(faults, "length", lengthTyped, material, "the piece");
    } else if (lengthTyped == null) {
      faults.add("length", "Give the length of the swatch, such as 300 mm.");
    }
    if (per != Per.SQUARE_METRE) {
      leaveOut(faults, "width", widthTyped, material, per == Per.PIECE ? "the piece" : "length");
    } else if (widthTyped == null) {
      faults.add("width", "Give the width of the swatch: " + material.code() + " goes by area.");
    }
    if (errorTyped != null && per == Per.PIECE) {
      leaveOut(faults, "sizeError", errorTyped, material, "the piece");
    }
    String error = errorTyped == null ? COMMON_SIZE_ERROR : errorTyped;
    return new Size(
        per == Per.PIECE ? null : edge(faults, "length", lengthTyped, error),
        per == Per.SQUARE_METRE ? edge(faults, "width", widthTyped, error) : null,
        errorTyped,
        place);
  }

  private static void leaveOut(
      Faults faults, String field, @Nullable String typed, Material material, String goesBy) {
    if (typed != null) {
      faults.add(
          field,
          "Leave this out: "
              + material.code()
              + " goes by "
              + goesBy
              + "; read "
              + Faults.shortened(typed)
              + ".");
    }
  }

  private static @Nullable Edge edge(
      Faults faults, String field, @Nullable String typed, String error) {
    if (typed == null) {
      return null;
    }
    Quantity side = faults.read(field, () -> Quantity.read(typed, Kind.LENGTH, null).positive());
    Quantity halfWidth =
        side == null
            ? null
            : faults.read("sizeError", () -> Tolerance.read(error, Kind.LENGTH, null).of(side));
    if (side == null || halfWidth == null) {
      return null;
    }
    if (halfWidth.length().compareTo(side.length()) >= 0) {
      faults.add(
          field, "Give a " + field + " above its error of " + error + "; read " + typed + ".");
      return null;
    }
    return new Edge(side.length(), typed, halfWidth.length());
  }
}
