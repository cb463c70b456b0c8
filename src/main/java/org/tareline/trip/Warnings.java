package org.tareline.trip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rig.Reconciliations.Disagreement;
import org.tareline.rollup.Content;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/** Looks through a trip for what is amiss. */
final class Warnings {

  private final Packing packing;
  private final Weights weights;
  private final MassStyle style;
  private final List<Warning> found = new ArrayList<>();

  private Warnings(Packing packing, Weights weights, MassStyle style) {
    this.packing = packing;
    this.weights = weights;
    this.style = style;
  }

  /**
   * All that is amiss, the things that are not there first.
   *
   * @param others the trips on the same days
   * @param disagreeing rigs on the trip that were weighed whole and do not agree
   */
  static List<Warning> of(
      Packing packing,
      Weights weights,
      List<Packing> others,
      List<Disagreement> disagreeing,
      MassStyle style) {
    Warnings warnings = new Warnings(packing, weights, style);
    warnings.lookForWhatIsNotAtHand(others);
    warnings.lookForWhatGivesOut();
    warnings.lookForIdleStandIns();
    warnings.lookForWhatDoesNotGoIn();
    warnings.lookForWhatIsNotWeighed();
    disagreeing.forEach(warnings::tell);
    return List.copyOf(warnings.found);
  }

  /** How many of each piece a trip takes along. */
  private static Map<String, Long> counts(List<Leaf> leaves) {
    Map<String, Long> counts = new HashMap<>();
    leaves.forEach(leaf -> counts.merge(leaf.piece().id(), leaf.multiplicity(), Math::addExact));
    return counts;
  }

  private void lookForWhatIsNotAtHand(List<Packing> others) {
    List<Leaf> leaves = weights.skinOut().leaves();
    Map<String, Long> packed = counts(leaves);
    Map<Packing, Map<String, Long>> elsewhere = new LinkedHashMap<>();
    for (Packing other : others) {
      elsewhere.put(other, counts(RollUp.of(other.assembly(), Scope.COMPLETE).leaves()));
    }
    leaves.stream()
        .map(Leaf::piece)
        .collect(Collectors.toMap(Piece::id, piece -> piece, (one, same) -> one))
        .values()
        .stream()
        .sorted(Comparator.comparing(Piece::code))
        .forEach(
            piece -> {
              Packing.Kind kind = packing.kind(piece);
              Integer owned = kind.owned();
              if (owned != null) {
                long count = packed.getOrDefault(piece.id(), 0L);
                if (count > owned - kind.lent()) {
                  tellOfTooFew(piece, count, owned, kind);
                } else {
                  tellOfOtherTrips(piece, count, owned - kind.lent(), elsewhere);
                }
              }
            });
  }

  private void tellOfTooFew(Piece piece, long count, int owned, Packing.Kind kind) {
    if (owned == 0 && kind.retired()) {
      ofPart(Warning.Kind.RETIRED, piece, subject(piece) + " is packed, and has been retired.");
      return;
    }
    ofPart(
        count > owned ? Warning.Kind.MORE_THAN_OWNED : Warning.Kind.LENT,
        piece,
        subject(piece)
            + " is packed "
            + times(count)
            + ", and "
            + (owned == 0 ? "none is" : owned == 1 ? "one is" : owned + " are")
            + " owned"
            + (kind.lent() == 0
                ? ""
                : owned == 1 ? " and lent" : ", " + kind.lent() + " of them lent")
            + ".");
  }

  private void tellOfOtherTrips(
      Piece piece, long count, int atHand, Map<Packing, Map<String, Long>> elsewhere) {
    List<Packing> rivals =
        elsewhere.keySet().stream()
            .filter(other -> Objects.requireNonNull(elsewhere.get(other)).containsKey(piece.id()))
            .toList();
    long wanted =
        rivals.stream()
            .mapToLong(
                other -> Objects.requireNonNull(elsewhere.get(other)).getOrDefault(piece.id(), 0L))
            .sum();
    if (!rivals.isEmpty() && count + wanted > atHand) {
      found.add(
          new Warning(
              Warning.Kind.WANTED_ELSEWHERE,
              subject(piece)
                  + " is wanted on the same days by "
                  + rivals.stream()
                      .map(other -> other.name() + " (" + other.code() + ")")
                      .collect(Collectors.joining(", "))
                  + ": "
                  + (count + wanted)
                  + " in all, and "
                  + (atHand == 1 ? "one is" : atHand + " are")
                  + " at hand.",
              List.of(piece.code()),
              List.of(),
              List.of(),
              rivals.stream().map(Packing::code).toList(),
              null));
    }
  }

  private static String times(long count) {
    return count == 1 ? "once" : count == 2 ? "twice" : count + " times";
  }

  private void lookForWhatGivesOut() {
    for (Weights.OfLine of : weights.lines()) {
      Packing.Line line = of.line();
      Course course = Figures.course(line, of.estimate(), packing.days());
      if (course == null) {
        continue;
      }
      Course.Lack lack = course.lack();
      if (lack != null) {
        ofContent(
            Warning.Kind.RUNS_OUT,
            line.content(),
            subject(line.content())
                + (lack.there().signum() > 0
                    ? " runs out on day "
                        + lack.day()
                        + ": that morning there is "
                        + said(lack.there())
                        + ", and the day uses "
                    : course.mornings().get(lack.gone() - 1).signum() == 0
                        ? " is not there yet on day " + lack.day() + ", and the day uses "
                        : " runs out on day "
                            + lack.gone()
                            + ": by the evening it is gone, and day "
                            + lack.day()
                            + " uses ")
                + said(lack.wanted())
                + ".",
            lack.gone());
      }
      if (!line.supply().used().isEmpty() && course.wanted().compareTo(course.taken()) > 0) {
        ofContent(
            Warning.Kind.MORE_USED_THAN_TAKEN,
            line.content(),
            "More of "
                + named(line.content())
                + " is used than taken: "
                + said(course.wanted())
                + " of "
                + said(course.taken())
                + ".",
            null);
      }
    }
  }

  private void lookForIdleStandIns() {
    Map<String, Content> contents = new HashMap<>();
    packing.lines().forEach(line -> contents.put(line.id(), line.content()));
    for (Packing.Idle idle : packing.idle()) {
      Content content = Objects.requireNonNull(contents.get(idle.line()));
      found.add(
          new Warning(
              Warning.Kind.STANDS_IN_FOR_NOTHING,
              subject(content)
                  + " is to serve for "
                  + idle.part()
                  + " of "
                  + idle.rig()
                  + ", which "
                  + (idle.served() ? "is served for already" : "is not on the trip")
                  + ".",
              Stream.concat(partCodes(List.of(content)).stream(), Stream.of(idle.part())).toList(),
              itemNames(List.of(content)),
              List.of(idle.rig()),
              List.of(),
              null));
    }
  }

  private void lookForWhatDoesNotGoIn() {
    for (PackFit fit : PackFit.of(packing, weights)) {
      Packing.Bearer carrier = fit.carrier();
      if (carrier == null) {
        continue;
      }
      if (Boolean.FALSE.equals(fit.fits())) {
        found.add(
            new Warning(
                Warning.Kind.DOES_NOT_FIT,
                "What "
                    + carrier.name()
                    + " is to pack is "
                    + (fit.withoutVolume().isEmpty() ? "" : "at least ")
                    + fit.sum()
                    + " by the sum of packed volumes, "
                    + fit.excess()
                    + " more than the pack takes.",
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                null));
      }
      for (PackFit.TooLong tooLong : fit.tooLong()) {
        ofPart(
            Warning.Kind.TOO_LONG,
            tooLong.piece(),
            subject(tooLong.piece())
                + " is "
                + tooLong.packed()
                + " long packed, and the pack of "
                + carrier.name()
                + " takes "
                + carrier.pack().lengthTyped()
                + ".");
      }
    }
  }

  private void lookForWhatIsNotWeighed() {
    List<Piece> missing = weights.skinOut().missing();
    if (!missing.isEmpty()) {
      notWeighed("Not weighed yet, and so in no figure: ", missing);
    }
    List<Piece> believed =
        weights.skinOut().leaves().stream()
            .map(Leaf::piece)
            .filter(piece -> !isItem(piece) && piece.basis() != null)
            .filter(piece -> piece.basis() != Basis.WEIGHED && piece.basis() != Basis.MIXED)
            .collect(
                Collectors.toMap(Piece::id, piece -> piece, (one, same) -> one, LinkedHashMap::new))
            .values()
            .stream()
            .toList();
    if (!believed.isEmpty()) {
      notWeighed("Not weighed yet, and counted as stated or calculated: ", believed);
    }
  }

  private void notWeighed(String words, List<Piece> pieces) {
    found.add(
        new Warning(
            Warning.Kind.NOT_WEIGHED,
            words + pieces.stream().map(Warnings::named).collect(Collectors.joining("; ")) + ".",
            partCodes(pieces),
            itemNames(pieces),
            List.of(),
            List.of(),
            null));
  }

  private void tell(Disagreement disagreement) {
    Estimate residual = disagreement.residual();
    boolean heavier = residual.value().signum() > 0;
    found.add(
        new Warning(
            Warning.Kind.DOES_NOT_AGREE,
            disagreement.code()
                + ", "
                + disagreement.name()
                + ", was weighed whole ("
                + disagreement.scope()
                + ") and is "
                + style.withUncertainty(
                    heavier ? residual.value() : residual.value().negated(),
                    residual.expandedUncertainty())
                + (heavier ? " more" : " less")
                + " than its parts together.",
            List.of(),
            List.of(),
            List.of(disagreement.code()),
            List.of(),
            null));
  }

  private void ofPart(Warning.Kind kind, Piece piece, String message) {
    ofContent(kind, piece, message, null);
  }

  private void ofContent(
      Warning.Kind kind, Content content, String message, @Nullable Integer day) {
    found.add(
        new Warning(
            kind,
            message,
            partCodes(List.of(content)),
            itemNames(List.of(content)),
            content instanceof Piece ? List.of() : List.of(content.code()),
            List.of(),
            day));
  }

  private static List<String> partCodes(List<? extends Content> of) {
    return of.stream()
        .filter(content -> content instanceof Piece && !isItem(content))
        .map(Content::code)
        .toList();
  }

  private static List<String> itemNames(List<? extends Content> of) {
    return of.stream().filter(Warnings::isItem).map(Content::name).toList();
  }

  private static boolean isItem(Content content) {
    return content.id().startsWith(Packing.ITEM);
  }

  /** An item by its name; a part or a rig by its code and its name. */
  private static String named(Content content) {
    return isItem(content) ? content.name() : content.code() + ", " + content.name();
  }

  /** As the subject of a sentence. */
  private static String subject(Content content) {
    return named(content) + (isItem(content) ? "" : ",");
  }

  private String said(Mass mass) {
    return style.text(mass, style.decimals(mass));
  }
}
