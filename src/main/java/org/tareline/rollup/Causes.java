package org.tareline.rollup;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Numbering;
import org.tareline.evidence.RunningTotal;
import org.tareline.evidence.Source;
import org.tareline.evidence.Tally;
import org.tareline.evidence.WeighingEvidence;
import org.tareline.rollup.Explanation.Cause;
import org.tareline.rollup.Provenance.Change;
import org.tareline.rollup.Provenance.Reading;
import org.tareline.rollup.Provenance.Weighed;
import org.tareline.units.DecimalMark;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;

/**
 * The search for what would explain a residual. A cause changes the residual by an estimate of its
 * own, and how well it fits follows from the few sources of that change (see {@link RunningTotal}),
 * so no candidate needs a roll-up and the search is linear in lines and readings.
 */
final class Causes {

  /**
   * The most by which a repair, a modification or damage is believed to change a part, as a share
   * of its mass: common practice, no source.
   */
  private static final double MOST_CHANGE = 0.2;

  private static final Pattern PLAIN = Pattern.compile("([0-9]++(?:\\.[0-9]++)?+)([^0-9]*+)");

  private static final BigDecimal GRAMS_IN_AN_OUNCE = new BigDecimal("28.349523125");

  /** A cause and what it would add to the residual. */
  private record Candidate(
      Cause cause,
      Content about,
      @Nullable String line,
      @Nullable String weighing,
      String sentence,
      Estimate change) {}

  /** A candidate with the ζ that would be left. */
  private record Fit(Candidate candidate, Estimate change, double zeta) {}

  /** How many of a piece there are, and by which line; null where by several. */
  private record Holding(Piece piece, long count, @Nullable String line) {

    Holding with(Leaf leaf) {
      return new Holding(piece, Math.addExact(count, leaf.multiplicity()), null);
    }
  }

  private final RollUp rollUp;
  private final Estimate residual;
  private final double grams;
  private final List<Candidate> candidates = new ArrayList<>();

  Causes(RollUp rollUp, Estimate residual) {
    this.rollUp = rollUp;
    this.residual = residual;
    this.grams = residual.value().inGrams();
  }

  void search(Provenance ofWhole, Function<Piece, Provenance> ofPiece) {
    Map<String, Holding> holdings = new LinkedHashMap<>();
    for (Leaf leaf : rollUp.leaves()) {
      Piece piece = leaf.piece();
      holdings.merge(
          piece.id(),
          new Holding(piece, leaf.multiplicity(), leaf.line().id()),
          (known, any) -> known.with(leaf));
      if (leaf.estimate() != null && leaf.multiplicity() > 1) {
        missingOrExtra(piece, leaf.line().id(), leaf.multiplicity(), leaf.estimate());
      }
    }
    Weighed whole = ofWhole.weighings().isEmpty() ? null : ofWhole.weighings().get(0);
    Water water = new Water();
    for (Holding holding : holdings.values()) {
      Piece piece = holding.piece();
      Estimate each = piece.each();
      if (each != null) {
        Provenance provenance = ofPiece.apply(piece);
        missingOrExtra(piece, holding.line(), 1, each);
        for (Weighed weighed : provenance.weighings()) {
          int mean = provenance.weighings().size();
          new Misreadings(piece, holding.line(), weighed, -holding.count(), mean).candidates();
        }
        changed(holding, each, provenance, whole);
        water.in(holding, each, provenance.fibre());
      }
    }
    nested();
    omitted();
    if (whole != null) {
      new Misreadings(rollUp.assembly(), null, whole, 1, 1).candidates();
      damp(whole);
    }
    water.candidates();
  }

  /** Whether a change by so many grams brings the residual nearer to nothing. */
  private boolean helps(double change) {
    return Math.abs(grams + change) < Math.abs(grams);
  }

  private void missingOrExtra(Content content, @Nullable String line, long times, Estimate mass) {
    double change = mass.value().inGrams();
    if (helps(change)) {
      candidates.add(
          new Candidate(
              Cause.MISSING,
              content,
              line,
              null,
              times == 1
                  ? "One " + content.code() + " was left off the pan, or is listed once too often."
                  : "All "
                      + times
                      + " of "
                      + content.code()
                      + " in one line were left off the pan, or the line stands once too often.",
              mass));
    } else if (helps(-change)) {
      candidates.add(
          new Candidate(
              Cause.EXTRA,
              content,
              line,
              null,
              times == 1
                  ? "One more " + content.code() + " lay on the pan than is listed."
                  : "Another " + times + " of " + content.code() + " lay on the pan.",
              mass.times(-1)));
    }
  }

  private void nested() {
    for (Tree.Row row : rollUp.nestedRows()) {
      long times = rollUp.count(row);
      for (long some : times == 1 ? List.of(1L) : List.of(1L, times)) {
        double mass = rollUp.grams(row) * some;
        if (helps(mass) || helps(-mass)) {
          Estimate each = rollUp.each(row);
          if (each != null) {
            missingOrExtra(row.line.content(), row.line.id(), some, each.times(some));
          }
        }
      }
    }
  }

  /** What is not counted and lay on the pan all the same. */
  private void omitted() {
    for (Omission omission : rollUp.omitted()) {
      Content content = omission.line().content();
      Estimate each =
          content instanceof Assembly assembly
              ? RollUp.of(assembly, Scope.COMPLETE).estimate()
              : ((Piece) content).each();
      if (each != null && helps(-each.value().inGrams() * omission.multiplicity())) {
        candidates.add(
            new Candidate(
                Cause.EXTRA,
                content,
                omission.line().id(),
                null,
                (omission.multiplicity() == 1 ? "" : omission.multiplicity() + " of ")
                    + content.code()
                    + ", which is not counted here, lay on the pan.",
                each.times(-omission.multiplicity())));
      }
    }
  }

  /** What the readings of one weighing may have been instead. */
  private final class Misreadings {
    private final Content about;
    private final @Nullable String line;
    private final Weighed weighed;
    private final long effect; // what the residual gains by a gram more of each
    private final int mean; // how many weighings each is the mean of
    private final List<Mass> asTyped;

    /** What the residual gains by a gram more in one of the readings. */
    private final double effectOfOne;

    private @Nullable Estimate evidence; // as typed; made when first needed

    Misreadings(Content about, @Nullable String line, Weighed weighed, long effect, int mean) {
      this.about = about;
      this.line = line;
      this.weighed = weighed;
      this.effect = effect;
      this.mean = mean;
      this.asTyped = weighed.readings().stream().map(Reading::mass).toList();
      this.effectOfOne = effect / ((double) asTyped.size() * weighed.count() * mean);
    }

    void candidates() {
      Map<String, List<Integer>> places = new LinkedHashMap<>(); // what was typed alike, together
      for (int i = 0; i < asTyped.size(); i++) {
        String typed = weighed.readings().get(i).typed();
        places.computeIfAbsent(typed, any -> new ArrayList<>()).add(i);
      }
      places.forEach(this::swappedDigits);
      if (places.size() > 1) {
        places.forEach(this::otherUnit);
      }
      otherUnit();
    }

    private void swappedDigits(String typed, List<Integer> places) {
      double number = plainNumber(typed);
      double grams = asTyped.get(places.get(0)).inGrams();
      for (String swapped : swaps(typed)) {
        // Most swaps help nothing, and a plain number tells that before it is read.
        double more = grams * (plainNumber(swapped) / number - 1);
        if (number > 0 && !helps(more * effectOfOne * places.size())) {
          continue;
        }
        Quantity read = read(swapped);
        if (read != null && read.signum() > 0) {
          offer(
              Cause.DIGITS,
              places,
              read.mass(),
              words(typed, places) + " was " + swapped + ": two neighbouring digits are swapped.");
        }
      }
    }

    /** Some of the readings in the other unit. */
    private void otherUnit(String typed, List<Integer> places) {
      Unit unit = unit(typed);
      Mass other = Causes.otherUnit(asTyped.get(places.get(0)), unit);
      if (other != null) {
        offer(Cause.UNIT, places, other, words(typed, places) + unitWords(unit));
      }
    }

    private String words(String typed, List<Integer> places) {
      return (places.size() == 1 ? "The reading " : "Every reading ")
          + typed
          + " of "
          + about.code();
    }

    /** All that was typed in the other unit, the tare included. */
    private void otherUnit() {
      double net = net(asTyped, weighed.tare()) * effectOfOne;
      double grams = GRAMS_IN_AN_OUNCE.doubleValue();
      if (!helps(net * (grams - 1)) && !helps(net * (1 / grams - 1))) {
        return;
      }
      String typed = weighed.readings().get(0).typed();
      Unit unit = unit(typed);
      List<Mass> others = new ArrayList<>();
      for (int i = 0; i < asTyped.size(); i++) {
        Mass other = Causes.otherUnit(asTyped.get(i), unit);
        if (other == null || unit(weighed.readings().get(i).typed()) != unit) {
          return;
        }
        others.add(other);
      }
      Mass tare = Causes.otherUnit(weighed.tare(), unit);
      offer(
          Cause.UNIT,
          others,
          tare == null ? weighed.tare() : tare,
          () ->
              (others.size() == 1 ? "The reading " + typed : "Every reading")
                  + " of "
                  + about.code()
                  + unitWords(unit));
    }

    /** The unit that was typed or meant; null where that cannot be told. */
    private @Nullable Unit unit(String typed) {
      Matcher plain = PLAIN.matcher(typed);
      if (plain.matches() && plain.group(2).isEmpty()) {
        return weighed.bareUnit();
      }
      Quantity read = read(typed);
      return read == null ? null : read.unit();
    }

    private @Nullable Quantity read(String typed) {
      try {
        // Swapped digits keep the mark that was typed, whatever it was known to be then.
        return Quantity.read(typed, Kind.MASS, weighed.bareUnit(), DecimalMark.EITHER);
      } catch (UnreadableQuantity notANumber) {
        return null;
      }
    }

    /**
     * Another mass in some places, unless that would set them apart from readings that they go well
     * with now.
     */
    private void offer(Cause cause, List<Integer> places, Mass other, String sentence) {
      List<Mass> changed = new ArrayList<>(asTyped);
      places.forEach(place -> changed.set(place, other));
      if (range(changed) <= range(asTyped)) {
        offer(cause, changed, weighed.tare(), () -> sentence);
      }
    }

    /**
     * The weighing with other readings: its value and, by way of spread and span, its errors
     * change.
     */
    private void offer(Cause cause, List<Mass> readings, Mass tare, Supplier<String> sentence) {
      double now = net(readings, tare);
      if (now <= 0 || !helps((now - net(asTyped, weighed.tare())) * effectOfOne)) {
        return;
      }
      if (evidence == null) {
        evidence = evidence(asTyped, weighed.tare());
      }
      Estimate otherwise;
      try {
        otherwise = evidence(readings, tare);
      } catch (IllegalArgumentException beyondTheScale) {
        return; // which cannot have shown it
      }
      candidates.add(
          new Candidate(
              cause,
              about,
              line,
              weighed.id(),
              sentence.get(),
              otherwise.minus(evidence).times(effect).dividedBy(mean)));
    }

    private Estimate evidence(List<Mass> readings, Mass tare) {
      if (weighed.instrument() != null) {
        return WeighingEvidence.from(
                weighed.id(), readings, tare, weighed.count(), weighed.instrument())
            .estimate();
      }
      BigDecimal sum =
          readings.stream()
              .map(reading -> reading.minus(tare).grams())
              .reduce(BigDecimal.ZERO, BigDecimal::add);
      BigDecimal pieces = BigDecimal.valueOf((long) readings.size() * weighed.count());
      return Estimate.exact(Mass.fromGrams(sum.divide(pieces, 9, RoundingMode.HALF_EVEN)));
    }
  }

  private static long range(List<Mass> readings) {
    long least = Long.MAX_VALUE;
    long most = Long.MIN_VALUE;
    for (Mass reading : readings) {
      least = Math.min(least, reading.nanograms());
      most = Math.max(most, reading.nanograms());
    }
    return most - least;
  }

  private static double net(List<Mass> readings, Mass tare) {
    double sum = 0;
    for (Mass reading : readings) {
      sum += reading.inGrams() - tare.inGrams();
    }
    return sum;
  }

  /** The number at the start of a text that holds no other; 0 where it is written otherwise. */
  private static double plainNumber(String typed) {
    Matcher plain = PLAIN.matcher(typed);
    return plain.matches() ? Double.parseDouble(plain.group(1)) : 0;
  }

  private static String unitWords(@Nullable Unit typedIn) {
    return typedIn == Unit.GRAM
        ? " was taken as grams, and was in ounces."
        : " was taken as ounces, and was in grams.";
  }

  /** The mass, had its number been of the other unit; null of units that are not mixed up. */
  private static @Nullable Mass otherUnit(Mass mass, @Nullable Unit typedIn) {
    if (typedIn == Unit.GRAM) {
      return Mass.fromGrams(mass.grams().multiply(GRAMS_IN_AN_OUNCE));
    }
    return typedIn == Unit.OUNCE
        ? Mass.fromGrams(mass.grams().divide(GRAMS_IN_AN_OUNCE, 9, RoundingMode.HALF_EVEN))
        : null;
  }

  /**
   * The text with two neighbouring digits swapped, in every place where that makes another; a
   * decimal mark between two digits does not keep them apart.
   */
  static List<String> swaps(String typed) {
    List<String> swaps = new ArrayList<>();
    for (int i = 0; i + 1 < typed.length(); i++) {
      boolean mark = typed.charAt(i + 1) == '.' || typed.charAt(i + 1) == ',';
      int next = mark ? i + 2 : i + 1;
      if (isDigit(typed, i) && isDigit(typed, next) && typed.charAt(i) != typed.charAt(next)) {
        StringBuilder swapped = new StringBuilder(typed);
        swapped.setCharAt(i, typed.charAt(next));
        swapped.setCharAt(next, typed.charAt(i));
        swaps.add(swapped.toString());
      }
    }
    return swaps;
  }

  private static boolean isDigit(String text, int at) {
    return at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9';
  }

  /** Something done between the two weighings; the residual would be what it changed. */
  private void changed(
      Holding holding, Estimate each, Provenance provenance, @Nullable Weighed whole) {
    Weighed weighed =
        provenance.weighings().stream().max(Comparator.comparing(Weighed::at)).orElse(null);
    if (weighed == null
        || whole == null
        || Math.abs(grams) > MOST_CHANGE * each.value().inGrams() * holding.count()) {
      return;
    }
    boolean partIsOlder = weighed.at().isBefore(whole.at());
    Instant from = partIsOlder ? weighed.at() : whole.at();
    Instant to = partIsOlder ? whole.at() : weighed.at();
    for (Change change : provenance.changes()) {
      if (change.at().isAfter(from) && !change.at().isAfter(to)) {
        String code = holding.piece().code();
        candidates.add(
            new Candidate(
                Cause.CHANGED,
                holding.piece(),
                holding.line(),
                partIsOlder ? weighed.id() : whole.id(),
                code
                    + " was "
                    + change.word()
                    + " after "
                    + (partIsOlder ? "it" : rollUp.assembly().code())
                    + " was weighed, and would have changed by as much.",
                Estimate.exact(residual.value().negated())));
        return;
      }
    }
  }

  private void damp(Weighed whole) {
    if (!whole.dry() && grams > 0) {
      candidates.add(
          new Candidate(
              Cause.DAMP,
              rollUp.assembly(),
              null,
              whole.id(),
              rollUp.assembly().code() + " was not dry when it was weighed whole.",
              Estimate.exact(residual.value().negated())));
    }
  }

  /**
   * What known fibres could take up: anything between nothing and their regain at 65 % relative
   * humidity, each as likely as any other, wherever that covers the residual.
   */
  private final class Water {
    private final List<Candidate> ofPieces = new ArrayList<>();
    private double mostInGrams;

    void in(Holding holding, Estimate each, @Nullable Fibre fibre) {
      if (fibre == null) {
        return;
      }
      double most = fibre.regain() * each.value().inGrams() * holding.count();
      mostInGrams += most;
      if (most >= Math.abs(grams)) {
        ofPieces.add(candidate(holding.piece(), holding.line(), most));
      }
    }

    void candidates() {
      candidates.addAll(ofPieces);
      if (mostInGrams >= Math.abs(grams) && mostInGrams > 0) {
        candidates.add(candidate(rollUp.assembly(), null, mostInGrams));
      }
    }

    private Candidate candidate(Content about, @Nullable String line, double most) {
      boolean heavier = grams > 0;
      Estimate water =
          Estimate.of(
              Mass.fromGrams(most / 2),
              Map.of(
                  Source.of("water/" + about.id(), "water in " + about.code()),
                  most / Math.sqrt(12)));
      return new Candidate(
          Cause.WATER,
          about,
          line,
          null,
          (about == rollUp.assembly() ? "All cloth of a known fibre in " : "")
              + about.code()
              + " can take up that much water from damp air, and had it when "
              + (heavier ? "the whole was weighed." : "it was weighed by itself."),
          water.times(heavier ? -1 : 1));
    }
  }

  /** The best fits, so many at most. */
  List<Explanation> bestFirst(int most) {
    List<Estimate> changes = new ArrayList<>(List.of(residual));
    candidates.forEach(candidate -> changes.add(candidate.change()));
    Numbering numbering = Numbering.of(changes);
    Estimate numbered = numbering.estimates().get(0);
    RunningTotal total = new RunningTotal(numbering);
    total.add(numbered, 1);
    List<Fit> fits = new ArrayList<>();
    for (int i = 0; i < candidates.size(); i++) {
      Estimate change = numbering.estimates().get(i + 1);
      RunningTotal.Standing left = total.with(change);
      if (left.mayBeNothing() || Math.abs(left.grams()) <= Math.abs(grams) / 2) {
        double zeta = Reconciliation.zeta(left.grams(), left.standardUncertaintyInGrams());
        fits.add(new Fit(candidates.get(i), change, Math.abs(zeta)));
      }
    }
    fits.sort(
        Comparator.comparingDouble(Fit::zeta)
            .thenComparing(fit -> fit.candidate().cause())
            .thenComparing(fit -> fit.candidate().about().code()));
    Tally tally = new Tally(numbering);
    return fits.stream()
        .limit(most)
        .map(
            fit -> {
              tally.add(numbered, 1);
              tally.add(fit.change(), 1);
              Candidate it = fit.candidate();
              return new Explanation(
                  it.cause(), it.about(), it.line(), it.weighing(), it.sentence(), tally.take());
            })
        .toList();
  }
}
