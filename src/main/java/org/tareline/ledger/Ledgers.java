package org.tareline.ledger;

import java.math.BigDecimal;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Fibre;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Percent;

/** Ledgers, and what each takes for granted. */
@Service
public class Ledgers implements ReadAgain {

  private static final String SETTINGS = "settings";

  /** Common practice, no source: what is off by more than its own size is not known at all. */
  private static final BigDecimal MOST_TOLERANCE = BigDecimal.ONE;

  private static final int MOST_DAYS = 36_500;

  /**
   * Settings as somebody typed them; what is left out stays as it is.
   *
   * @param air by the word of a {@link Fibre}
   */
  public record Entry(
      @Nullable GrowthEntry growthAllowance,
      @Nullable String statedTolerance,
      @Nullable String checkEvery,
      @Nullable String designFactor,
      @Nullable Map<String, @Nullable String> air) {}

  /** Allowances by where a mass comes from, as somebody typed them. */
  public record GrowthEntry(
      @Nullable String estimated, @Nullable String calculated, @Nullable String weighed) {}

  /** Settings, and how often they have been saved. */
  public record Kept(Settings settings, int revision) {}

  private final LedgerRepository ledgers;
  private final Revisions revisions;

  Ledgers(LedgerRepository ledgers, Revisions revisions) {
    this.ledgers = ledgers;
    this.revisions = revisions;
  }

  /** The settings with their revision; without it, {@link Member#settings()} has them at hand. */
  @Transactional(readOnly = true)
  public Kept settings(Member member) {
    return kept(ledgers.one(member.ledgerId()).orElseThrow(() -> new NotThere("ledger")));
  }

  /**
   * Changes the settings that the entry names.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws org.tareline.site.Refusal if the entry cannot be read, or somebody saved since
   */
  @Transactional
  public Kept settle(Member member, Entry entry, @Nullable Integer expected) {
    Ledger ledger = ledgers.lock(member.ledgerId()).orElseThrow(() -> new NotThere("ledger"));
    Revisions.guard("the settings", ledger.settingsRevision(), expected);
    ledger.settle(read(entry, ledger.settings()));
    revisions.keep(member, SETTINGS, ledger.id(), ledger.settingsRevision(), ledger.settings());
    return kept(ledger);
  }

  @Override
  public String table() {
    return "ledger";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    return ReadAgain.each(
        ledgers.one(member.ledgerId()).stream().toList(),
        Ledger::id,
        ledger -> read(entry(ledger.settings()), Settings.COMMON_PRACTICE));
  }

  private static Entry entry(Settings settings) {
    Map<String, @Nullable String> air = new LinkedHashMap<>();
    for (Fibre fibre : Fibre.values()) {
      air.put(fibre.word(), settings.airTyped(fibre));
    }
    return new Entry(
        new GrowthEntry(
            settings.growthTyped(Basis.ESTIMATED),
            settings.growthTyped(Basis.CALCULATED),
            settings.growthTyped(Basis.WEIGHED)),
        settings.statedTyped(),
        String.valueOf(settings.checkEveryDays()),
        settings.designFactorTyped(),
        air);
  }

  private static Kept kept(Ledger ledger) {
    return new Kept(ledger.settings(), ledger.settingsRevision());
  }

  private static Settings read(Entry entry, Settings now) {
    Faults faults = new Faults();
    GrowthEntry growth =
        entry.growthAllowance() == null
            ? new GrowthEntry(null, null, null)
            : entry.growthAllowance();
    Map<Fibre, @Nullable String> air = byFibre(faults, entry.air());
    Settings read =
        new Settings(
            allowance(faults, Basis.ESTIMATED, growth.estimated(), now),
            allowance(faults, Basis.CALCULATED, growth.calculated(), now),
            allowance(faults, Basis.WEIGHED, growth.weighed(), now),
            percent(
                faults,
                "statedTolerance",
                entry.statedTolerance(),
                now.statedTyped(),
                MOST_TOLERANCE),
            days(faults, entry.checkEvery(), now.checkEveryDays()),
            designFactor(faults, entry.designFactor(), now.designFactorTyped()),
            air(faults, Fibre.NYLON, air, now),
            air(faults, Fibre.POLYESTER, air, now),
            air(faults, Fibre.HMPE, air, now),
            air(faults, Fibre.COTTON, air, now),
            air(faults, Fibre.WOOL, air, now),
            air(faults, Fibre.DOWN, air, now));
    faults.refuseIfAny();
    return read;
  }

  private static Map<Fibre, @Nullable String> byFibre(
      Faults faults, @Nullable Map<String, @Nullable String> typed) {
    Map<Fibre, @Nullable String> air = new EnumMap<>(Fibre.class);
    if (typed != null) {
      typed.forEach(
          (word, percent) ->
              Fibre.of(word)
                  .ifPresentOrElse(
                      fibre -> air.put(fibre, percent),
                      () ->
                          faults.add(
                              word.matches("\\w{1,60}") ? "air." + word : "air",
                              "There is no fibre "
                                  + Faults.shortened(word)
                                  + ": say nylon, polyester, hmpe, cotton, wool or down.")));
    }
    return air;
  }

  private static String allowance(
      Faults faults, Basis basis, @Nullable String typed, Settings now) {
    return percent(
        faults, "growthAllowance." + basis.word(), typed, now.growthTyped(basis), BigDecimal.TEN);
  }

  private static String air(
      Faults faults, Fibre fibre, Map<Fibre, @Nullable String> typed, Settings now) {
    return percent(
        faults, "air." + fibre.word(), typed.get(fibre), now.airTyped(fibre), MOST_TOLERANCE);
  }

  private static String percent(
      Faults faults, String field, @Nullable String typed, String now, BigDecimal most) {
    if (typed == null) {
      return now;
    }
    String text = faults.text(field, typed, "a percentage, such as 5 %", 60);
    if (!text.isEmpty() && text.length() <= 60) {
      Percent read = faults.read(field, () -> Percent.parse(text));
      if (read != null && read.fraction().compareTo(most) > 0) {
        faults.add(
            field, "Give a percentage up to " + new Percent(most) + "; read \"" + text + "\".");
      }
    }
    return text;
  }

  private static String designFactor(Faults faults, @Nullable String typed, String now) {
    if (typed == null) {
      return now;
    }
    String text = faults.text("designFactor", typed, "a number, such as 5", 60);
    if (!text.isEmpty()
        && !(text.matches("[0-9]{1,3}(\\.[0-9]{1,6})?")
            && Double.parseDouble(text) >= 1
            && Double.parseDouble(text) <= 100)) {
      faults.add(
          "designFactor",
          "Give the design factor as a number from 1 to 100; read \""
              + Faults.shortened(text)
              + "\".");
    }
    return text;
  }

  private static int days(Faults faults, @Nullable String typed, int now) {
    if (typed == null) {
      return now;
    }
    String text = faults.text("checkEvery", typed, "a whole number of days, such as 365", 60);
    return faults.wholeNumber("checkEvery", text, "the days", 1, MOST_DAYS, now);
  }
}
