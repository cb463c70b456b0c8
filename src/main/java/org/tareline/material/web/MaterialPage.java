package org.tareline.material.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.SizedPiece;
import org.tareline.evidence.Verdict;
import org.tareline.ledger.Member;
import org.tareline.material.Learning;
import org.tareline.material.MassPer;
import org.tareline.material.Material;
import org.tareline.material.MaterialMass;
import org.tareline.material.StrengthKind;
import org.tareline.material.Swatch;
import org.tareline.material.Swatches;
import org.tareline.site.AsTyped;
import org.tareline.site.Moments;
import org.tareline.units.MassStyle;
import org.tareline.units.Percent;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * The page of a material.
 *
 * @param aside kind, fibre and colour
 * @param figure the mass that is used; null where nothing is known
 * @param fillPower of a filling, which goes by it; null of anything else
 * @param why which that is, and why
 * @param both as printed and as weighed, the rows of a table; empty where neither is known
 * @param apart how far the two are apart; null where one of them is not known
 * @param disagree that the swatches do not agree, and what follows; null where they do
 * @param lesson what parts made of it say; null where none does
 * @param taken that what they said once is in use; null where it is not
 * @param shelf what is on hand, and what it is used in; null as long as nobody said what its mass
 *     is for
 * @param revision for what is taken or taken back
 * @param swatchable whether a swatch says anything of it
 * @param sides how many sides of a swatch are asked for
 */
record MaterialPage(
    String code,
    String name,
    String aside,
    @Nullable PerFigure figure,
    @Nullable String fillPower,
    String why,
    List<Source> both,
    @Nullable String apart,
    @Nullable String disagree,
    List<Fact> facts,
    @Nullable String note,
    List<Cut> swatches,
    @Nullable Lesson lesson,
    @Nullable String taken,
    @Nullable Shelf shelf,
    int revision,
    boolean swatchable,
    int sides,
    List<String> reasons) {

  /** One of the two masses. */
  record Source(String name, PerFigure figure, String account, boolean used) {}

  /** What else is known. */
  record Fact(String name, String value) {}

  /**
   * A swatch.
   *
   * @param id of its weighing
   * @param struckOut the reason; null while it stands
   */
  record Cut(
      String id,
      String when,
      PerFigure figure,
      String account,
      @Nullable String note,
      List<String> notes,
      boolean counts,
      String standing,
      @Nullable String struckOut,
      List<Term> terms) {}

  /** What one source of error contributes. */
  record Term(String source, String uncertainty, String share) {}

  static MaterialPage of(
      Member member,
      Material material,
      MaterialMass known,
      List<Swatches.Weighed> swatches,
      Learning.@Nullable Learned learned,
      @Nullable Shelf shelf,
      Moments moments) {
    MassStyle style = member.massStyle();
    MassPer used = known.inUse();
    List<String> aside = new ArrayList<>(List.of(material.kind().word()));
    material.fibre().map(Fibre::pageWords).ifPresent(aside::add);
    material.colour().ifPresent(aside::add);
    return new MaterialPage(
        material.code(),
        material.name(),
        String.join(" · ", aside),
        used == null ? null : PerFigure.of(used, style),
        material.fillPower().map(power -> power.toPlainString() + " in³/oz").orElse(null),
        why(material, known),
        both(member, material, known, style, moments),
        apart(known, style),
        known.agree()
            ? null
            : "The swatches do not agree: they are further apart than the scale and the cutting explain. The ± of"
                + " their mean is as large as they are scattered. Look for one that was read or measured wrong, or"
                + " weigh more of them from other places of the roll.",
        facts(material),
        material.note().orElse(null),
        swatches.stream().map(each -> cut(each, style, moments)).toList(),
        learned == null ? null : Lesson.of(material, learned, style),
        material.taken().map(taken -> Lesson.taken(taken, moments)).orElse(null),
        shelf,
        material.revision(),
        material.per().isPresent(),
        material
            .per()
            .map(
                per ->
                    switch (per) {
                      case SQUARE_METRE -> 2;
                      case METRE -> 1;
                      case PIECE -> 0;
                    })
            .orElse(0),
        Weighings.REASONS_TO_STRIKE_OUT.stream()
            .map(reason -> reason.equals("wrong part") ? "wrong material" : reason)
            .toList());
  }

  private static String why(Material material, MaterialMass known) {
    if (known.used() == null) {
      return material.fillPower().isPresent()
          ? "It goes by its fill power: what is filled in is weighed out."
          : "Nothing is printed, and no swatch counts. Weigh one.";
    }
    return switch (known.used()) {
          case NOMINAL -> "As printed";
          case WEIGHED -> "As its swatches weigh";
          case LEARNED -> "As parts of it weigh";
        }
        + ", because "
        + known.why()
        + ".";
  }

  private static List<Source> both(
      Member member, Material material, MaterialMass known, MassStyle style, Moments moments) {
    List<Source> both = new ArrayList<>();
    MassPer nominal = known.nominal();
    MassPer weighed = known.weighed();
    MassPer learned = known.learned();
    int decimals =
        Stream.of(
                Optional.ofNullable(nominal),
                Optional.ofNullable(weighed),
                Optional.ofNullable(learned))
            .flatMap(Optional::stream)
            .mapToInt(mass -> PerFigure.decimals(mass, style))
            .max()
            .orElse(0);
    if (nominal != null) {
      both.add(
          new Source(
              "As printed",
              PerFigure.of(nominal, style, decimals),
              material.nominalTyped().orElse("")
                  + material
                      .toleranceTyped()
                      .map(typed -> ", good to " + within(typed))
                      .orElseGet(
                          () ->
                              ", taken as good to "
                                  + within(new Percent(member.statedTolerance()).toString())
                                  + " as this ledger takes what nobody gave a tolerance for"),
              known.used() == MaterialMass.Use.NOMINAL));
    }
    if (weighed != null) {
      both.add(
          new Source(
              "Weighed",
              PerFigure.of(weighed, style, decimals),
              known.swatches() == 1
                  ? "one swatch"
                  : known.swatches()
                      + " swatches, the surer ones counted for more"
                      + (known.agree() ? "; they agree" : "; they do not agree"),
              known.used() == MaterialMass.Use.WEIGHED));
    }
    if (learned != null) {
      both.add(
          new Source(
              "Learned",
              PerFigure.of(learned, style, decimals),
              material
                  .taken()
                  .map(
                      taken ->
                          "from "
                              + Lesson.parts(taken.parts())
                              + ", taken on "
                              + moments.day(taken.at()))
                  .orElse(""),
              true));
    }
    return both;
  }

  private static String within(String tolerance) {
    return tolerance.startsWith("±") ? tolerance : "± " + tolerance;
  }

  private static @Nullable String apart(MaterialMass known, MassStyle style) {
    MassPer nominal = known.nominal();
    MassPer weighed = known.weighed();
    if (nominal == null || weighed == null) {
      return null;
    }
    Estimate difference = weighed.estimate().minus(nominal.estimate());
    String size = PerFigure.ofDifference(weighed.per(), difference, style).sentence();
    return switch (Verdict.of(difference)) {
      case LIGHTER -> "It weighs less than is printed, by " + size + ".";
      case HEAVIER -> "It weighs more than is printed, by " + size + ".";
      case UNDECIDED -> "No difference from what is printed can be told (" + size + ").";
    };
  }

  private static List<Fact> facts(Material material) {
    List<Fact> facts = new ArrayList<>();
    material.widthTyped().ifPresent(typed -> facts.add(new Fact("Usable width", typed)));
    if (material.fillPower().isEmpty()) {
      facts.add(
          new Fact(
              "Strength",
              material
                  .strength()
                  .map(
                      strength ->
                          strength.text()
                              + material
                                  .strengthKind()
                                  .map(StrengthKind::pageWords)
                                  .map(words -> ", " + words)
                                  .orElse(""))
                  .orElse("not known")));
    }
    material.priceTyped().ifPresent(typed -> facts.add(new Fact("Price", typed)));
    return facts;
  }

  private static Cut cut(Swatches.Weighed weighed, MassStyle style, Moments moments) {
    Weighing weighing = weighed.logged().weighing();
    return new Cut(
        weighing.uuid().toString(),
        moments.minute(weighing.weighedAt()),
        PerFigure.of(weighed.mass(), style),
        account(weighed),
        weighing.note().orElse(null),
        weighed.notes(),
        weighed.counts(),
        weighed.logged().voidReason() != null
            ? "struck out"
            : weighed.counts()
                ? "counts"
                : "kept, and does not count: " + weighing.condition().word(),
        weighed.logged().voidReason(),
        terms(weighed.mass(), style));
  }

  private static String account(Swatches.Weighed weighed) {
    Swatch swatch = weighed.swatch();
    Weighing weighing = weighed.logged().weighing();
    Unit unit = weighing.scale().map(Scale::unit).orElse(Unit.GRAM);
    String size =
        swatch
            .lengthTyped()
            .map(
                length ->
                    length
                        + swatch.widthTyped().map(width -> " × " + width).orElse("")
                        + ", each side good to "
                        + within(swatch.sizeErrorTyped().orElse(Swatches.COMMON_SIZE_ERROR))
                        + "; ")
            .map(words -> swatch.width().isPresent() ? words : words.replace("each side ", ""))
            .orElse("");
    return size
        + "read "
        + weighing.readings().stream()
            .map(reading -> AsTyped.text(reading.typed(), unit))
            .collect(Collectors.joining(", "))
        + weighing
            .scale()
            .map(scale -> " on " + scale.name())
            .orElseGet(
                () ->
                    "; scale not recorded, taken as good to "
                        + within(AsTyped.text(weighing.toleranceTyped().orElse(""), Unit.GRAM)))
        + weighing.tareTyped().map(typed -> "; tare " + AsTyped.text(typed, unit)).orElse("")
        + (weighing.pieceCount() == 1 ? "" : "; " + weighing.pieceCount() + " alike together")
        + "; "
        + weighing.condition().word()
        + swatch.place().map(place -> "; " + place).orElse("");
  }

  private static List<Term> terms(MassPer mass, MassStyle style) {
    double variance = mass.estimate().variance();
    return mass.estimate().coefficients().entrySet().stream()
        .map(
            term -> {
              BigDecimal percent =
                  new BigDecimal(100 * term.getValue() * term.getValue() / variance)
                      .setScale(0, RoundingMode.HALF_EVEN);
              return new Term(
                  term.getKey().label(),
                  PerFigure.uncertainty(
                      Math.abs(term.getValue()) / SizedPiece.UNITS, mass.per(), style),
                  (percent.signum() == 0 ? "under 1" : percent.toPlainString()) + "\u00a0%");
            })
        .toList();
  }
}
