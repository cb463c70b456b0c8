package org.tareline.material;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/** What came to and went from the stock of materials. */
@Service
@Transactional(readOnly = true)
public class StockEntries implements ReadAgain {

  /** Reasons that cover most strike-outs, for a page to offer; the first is the likeliest. */
  public static final List<String> REASONS_TO_STRIKE_OUT =
      List.of("mistyped", "wrong material", "it was not cut", "written down twice");

  private static final int MOST_SHOWN = 500;
  private static final int LONGEST_KEY = 200;

  /** Decimals of the column. */
  private static final int DECIMALS = 12;

  /**
   * A line of the record as somebody typed it.
   *
   * @param kind a word of {@link StockEntry.Kind}
   * @param field where the amount stands, for a fault
   * @param amount a length, a count or, of a filling, a mass
   * @param part code of the part that it was cut for
   * @param at an ISO 8601 date, or date and time; now when left out
   * @param key the sender's own name for it: the same again is not written twice
   */
  public record Entry(
      StockEntry.Kind kind,
      String field,
      @Nullable String amount,
      @Nullable String part,
      @Nullable String at,
      @Nullable String note,
      @Nullable String key) {}

  /** A line that could be read. */
  record Read(
      StockEntry.Kind kind,
      BigDecimal amount,
      String typed,
      @Nullable Long partId,
      @Nullable String note,
      @Nullable String key,
      Instant happenedAt) {}

  /**
   * A line of the record.
   *
   * @param part that it was cut for; null where it was for none
   * @param voidReason why it was struck out; null while it stands
   */
  public record Logged(
      StockEntry entry, CutFrom.@Nullable Named part, @Nullable String voidReason) {}

  /**
   * What became of a line.
   *
   * @param onHand what there is after it
   * @param again whether it had been written before, under the same key
   * @param notes what is to be said about it, as sentences
   */
  public record Outcome(
      Material material, Logged logged, OnHand onHand, boolean again, List<String> notes) {}

  private final StockEntryRepository entries;
  private final StockEntryVoidingRepository voidings;
  private final Materials materials;
  private final CutFrom cutFrom;
  private final Clock clock;

  StockEntries(
      StockEntryRepository entries,
      StockEntryVoidingRepository voidings,
      Materials materials,
      CutFrom cutFrom,
      Clock clock) {
    this.entries = entries;
    this.voidings = voidings;
    this.materials = materials;
    this.cutFrom = cutFrom;
    this.clock = clock;
  }

  /** The record of a material, newest first, with what was struck out. */
  public List<Logged> of(Member member, Material material) {
    List<StockEntryRepository.Row> rows =
        entries.newestFirst(member.ledgerId(), material.id(), Limit.of(MOST_SHOWN));
    Map<Long, CutFrom.Named> named =
        cutFrom.named(
            member,
            rows.stream()
                .map(row -> row.getEntry().partId())
                .filter(Objects::nonNull)
                .collect(Collectors.toSet()));
    return rows.stream()
        .map(
            row -> {
              Long part = row.getEntry().partId();
              return new Logged(
                  row.getEntry(), part == null ? null : named.get(part), row.getVoidReason());
            })
        .toList();
  }

  /**
   * Writes a line into the record.
   *
   * @throws NotThere if there is no such material
   * @throws Refusal if the line cannot be read, or its key came before with another
   */
  @Transactional
  public Outcome log(Member member, String code, Entry entry) {
    Material material = materials.locked(member, code);
    Faults faults = new Faults();
    CutFrom.Named part = part(member, entry.part(), faults);
    Read read = read(material, entry, part, faults);
    faults.refuseIfAny();
    if (read == null) {
      throw new IllegalStateException("A fault was noted for what cannot be read");
    }
    Optional<StockEntry> before =
        Optional.ofNullable(read.key())
            .flatMap(
                key ->
                    entries.findByLedgerIdAndMaterialIdAndKey(
                        member.ledgerId(), material.id(), key));
    if (before.isPresent() && !before.get().saysAs(read)) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          "key",
          "The key "
              + Faults.shortened(String.valueOf(read.key()))
              + " came before with another line, "
              + before.get().kind().word()
              + " "
              + before.get().typed()
              + ". Nothing was written now.");
    }
    StockEntry kept =
        before.orElseGet(
            () ->
                entries.save(
                    new StockEntry(material, member.ledgerId(), read, now(), member.accountId())));
    OnHand onHand = onHand(member, material);
    return new Outcome(
        material, new Logged(kept, part, null), onHand, before.isPresent(), notes(kept, onHand));
  }

  private OnHand onHand(Member member, Material material) {
    return Objects.requireNonNull(materials.onHand(member, List.of(material)).get(material.id()));
  }

  private static List<String> notes(StockEntry entry, OnHand onHand) {
    List<String> notes = new ArrayList<>();
    if (entry.kind() == StockEntry.Kind.CUT && onHand.overdrawn()) {
      notes.add(
          "More was cut than there was: "
              + onHand.words()
              + " is what the record comes to. It was kept; count what is left.");
    } else if (onHand.amount() == null) {
      notes.add("Nobody counted what there was before, so what is left is not known.");
    }
    return notes;
  }

  /**
   * Strikes out a line.
   *
   * @throws NotThere if there is no such material or line
   * @throws Refusal if it has been struck out already or no reason is given
   */
  @Transactional
  public Outcome strikeOut(Member member, String code, UUID uuid, @Nullable String reason) {
    Material material = materials.locked(member, code);
    StockEntry entry =
        entries
            .findByLedgerIdAndMaterialIdAndUuid(member.ledgerId(), material.id(), uuid)
            .orElseThrow(() -> new NotThere("line of the stock"));
    Faults faults = new Faults();
    String read = faults.text("reason", reason, "a reason", 500);
    faults.refuseIfAny();
    if (voidings.existsByLedgerIdAndId(member.ledgerId(), entry.id())) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "This has been struck out already.");
    }
    voidings.save(new StockEntryVoiding(entry, read, now(), member));
    OnHand onHand = onHand(member, material);
    return new Outcome(material, new Logged(entry, null, read), onHand, false, List.of());
  }

  @Override
  public String table() {
    return "stock_entry";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    Map<Long, Material> of =
        materials
            .byIds(
                member,
                entries.byIds(member.ledgerId(), ids.toArray(Long[]::new)).stream()
                    .map(StockEntry::materialId)
                    .distinct()
                    .toList())
            .stream()
            .collect(Collectors.toMap(Material::id, material -> material));
    // What was struck out may be of a time when the material went by something else.
    List<StockEntry> kept =
        of.isEmpty()
            ? List.of()
            : entries.standing(member.ledgerId(), of.keySet().toArray(Long[]::new)).stream()
                .filter(entry -> ids.contains(entry.id()))
                .toList();
    Map<Long, CutFrom.Named> parts =
        cutFrom.named(
            member,
            kept.stream()
                .map(StockEntry::partId)
                .filter(Objects::nonNull)
                .collect(Collectors.toSet()));
    return ReadAgain.each(
        kept,
        StockEntry::id,
        entry -> {
          Faults faults = new Faults();
          Long part = entry.partId();
          Read read =
              read(
                  Objects.requireNonNull(of.get(entry.materialId())),
                  new Entry(entry.kind(), "entry", entry.typed(), null, null, null, null),
                  part == null ? null : parts.get(part),
                  faults);
          if (read != null && read.amount().compareTo(entry.amount()) != 0) {
            faults.add("amount", "Let the figure say what is typed beside it.");
          }
          faults.refuseIfAny();
        });
  }

  private CutFrom.@Nullable Named part(Member member, @Nullable String typed, Faults faults) {
    String code = faults.optionalText("part", typed, "the part's code", Codes.LONGEST);
    if (code == null) {
      return null;
    }
    Optional<CutFrom.Named> found = cutFrom.find(member, code);
    if (found.isEmpty()) {
      faults.add("part", "There is no part " + Faults.shortened(code) + " in this ledger.");
    }
    return found.orElse(null);
  }

  private @Nullable Read read(
      Material material, Entry entry, CutFrom.@Nullable Named part, Faults faults) {
    OnHand.Measure measure = material.measure().orElse(null);
    String typed = faults.optionalText(entry.field(), entry.amount(), "how much", 200);
    BigDecimal amount = null;
    if (measure == null) {
      faults.add(entry.field(), Materials.MEASURE_FIRST);
    } else if (typed == null) {
      faults.add(entry.field(), "Say how much, such as " + measure.example() + ".");
    } else {
      amount = measure.read(faults, entry.field(), typed);
      if (amount != null && amount.signum() == 0 && entry.kind() != StockEntry.Kind.COUNTED) {
        faults.add(entry.field(), "Give more than nothing; read " + Faults.shortened(typed) + ".");
      }
    }
    if (part != null && entry.kind() != StockEntry.Kind.CUT) {
      faults.add("part", "Only what is cut is for a part.");
    }
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    String key = faults.optionalText("key", entry.key(), "the key", LONGEST_KEY);
    Instant at = Moments.read(faults, "at", entry.at(), clock);
    return amount == null || typed == null
        ? null
        : new Read(
            entry.kind(),
            amount.setScale(DECIMALS, RoundingMode.HALF_EVEN),
            typed,
            part == null ? null : part.id(),
            note,
            key,
            at);
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
