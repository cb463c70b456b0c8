package org.tareline.part;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.part.LifeEvent.Kind;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/**
 * What happened to parts. How many of a part are owned follows: those made are added, those retired
 * taken off. What is lent stays owned and is not at hand.
 */
@Service
@Transactional(readOnly = true)
public class LifeEvents implements ReadAgain {

  /** After these a thing may weigh something else; a wash takes off what did not belong to it. */
  private static final Set<Kind> CHANGES = Set.of(Kind.REPAIRED, Kind.MODIFIED, Kind.DAMAGED);

  /** Reasons that cover most strike-outs, for a page to offer; the first is the likeliest. */
  public static final List<String> REASONS_TO_STRIKE_OUT =
      List.of("mistyped", "wrong part", "wrong date", "it did not happen");

  /**
   * An event as somebody typed it.
   *
   * @param kind a word of {@link Kind}
   * @param date an ISO 8601 date, or date and time; now when left out
   * @param count how many pieces were made, retired, lent or returned; 1 when left out. The first
   *     time that a part of which some are owned is said to be made, it is 0: those are the ones
   */
  public record Entry(
      @Nullable String kind,
      @Nullable String date,
      @Nullable String count,
      @Nullable String note) {}

  /**
   * An event.
   *
   * @param voidReason why it was struck out; null while it stands
   */
  public record Logged(LifeEvent event, @Nullable String voidReason) {}

  /**
   * What came of logging or striking out.
   *
   * @param part with what is owned now
   * @param lent how many of those are lent now
   */
  public record Outcome(Logged logged, Part part, int lent) {}

  private final LifeEventRepository events;
  private final LifeEventVoidingRepository voidings;
  private final Parts parts;
  private final Clock clock;

  LifeEvents(
      LifeEventRepository events, LifeEventVoidingRepository voidings, Parts parts, Clock clock) {
    this.events = events;
    this.voidings = voidings;
    this.parts = parts;
    this.clock = clock;
  }

  /** What happened to a part, newest first, with what was struck out. */
  public List<Logged> of(Member member, Part part, int most) {
    return of(events, member, part, most);
  }

  static List<Logged> of(LifeEventRepository events, Member member, Part part, int most) {
    return events.newestFirst(member.ledgerId(), part.id(), Limit.of(most)).stream()
        .map(row -> new Logged(row.getEvent(), row.getVoidReason()))
        .toList();
  }

  /** How many of a part are lent. */
  public int lent(Member member, Part part) {
    return events.lent(member.ledgerId(), part.id());
  }

  /**
   * The events after which each of these parts may weigh something else, oldest first: repaired,
   * modified or damaged, and not struck out. A part that has none is left out.
   */
  public Map<Long, List<LifeEvent>> changes(Member member, Collection<Long> partIds) {
    return partIds.isEmpty()
        ? Map.of()
        : events.standing(member.ledgerId(), partIds, CHANGES).stream()
            .collect(Collectors.groupingBy(LifeEvent::partId));
  }

  /**
   * Where the pieces of a part are.
   *
   * @param lent how many are lent
   * @param retired whether one was retired
   */
  public record Whereabouts(int lent, boolean retired) {

    /** Of a part that was neither lent nor retired. */
    public static final Whereabouts AT_HOME = new Whereabouts(0, false);

    private Whereabouts after(LifeEvent event) {
      return new Whereabouts(
          lent + event.kind().lentBy(event.pieces()), retired || event.kind() == Kind.RETIRED);
    }
  }

  /** Where these parts are, in one query; a part that was neither lent nor retired is left out. */
  public Map<Long, Whereabouts> whereabouts(Member member, Collection<Long> partIds) {
    Map<Long, Whereabouts> whereabouts = new HashMap<>();
    if (!partIds.isEmpty()) {
      for (LifeEvent event :
          events.standing(
              member.ledgerId(), partIds, Set.of(Kind.LENT, Kind.RETURNED, Kind.RETIRED))) {
        whereabouts.put(
            event.partId(),
            whereabouts.getOrDefault(event.partId(), Whereabouts.AT_HOME).after(event));
      }
    }
    return whereabouts;
  }

  /**
   * Takes note of what happened to a part.
   *
   * @throws NotThere if there is no such part
   * @throws Refusal if the entry cannot be read, or there are not so many to retire, lend or return
   */
  @Transactional
  public Outcome log(Member member, String code, Entry entry) {
    Part part = parts.locked(member, code);
    int lentBefore = lent(member, part);
    Faults faults = new Faults();
    String word = faults.text("kind", entry.kind(), "what happened", 60);
    Kind kind = Kind.of(word).orElse(null);
    if (kind == null && !word.isEmpty()) {
      faults.add(
          "kind",
          "Say made, repaired, washed, modified, damaged, retired, lent or returned; read \""
              + Faults.shortened(word)
              + "\".");
    }
    Instant happenedAt = Moments.read(faults, "date", entry.date(), clock);
    int pieces = kind == null ? 0 : pieces(faults, member, part, kind, entry.count());
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    faults.refuseIfAny();
    if (kind == null) {
      throw new IllegalStateException("A fault was noted for what did not happen");
    }
    int owned = part.owned() + kind.ownedBy(pieces);
    int lent = lentBefore + kind.lentBy(pieces);
    refuseUnlessItFits(
        "count",
        "There are not so many, or there would be too many",
        part,
        lentBefore,
        owned,
        lent);
    LifeEvent event =
        events.save(
            new LifeEvent(
                part,
                member.ledgerId(),
                kind,
                pieces,
                note,
                happenedAt,
                now(),
                member.accountId()));
    return own(member, part, owned, lent, new Logged(event, null));
  }

  @Override
  public String table() {
    return "life_event";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<LifeEvent> kept = events.byIds(member.ledgerId(), ids.toArray(Long[]::new));
    Map<Long, Part> of =
        parts.byIds(member, kept.stream().map(LifeEvent::partId).distinct().toList()).stream()
            .collect(Collectors.toMap(Part::id, part -> part));
    return ReadAgain.each(
        kept,
        LifeEvent::id,
        event -> {
          Part part = Objects.requireNonNull(of.get(event.partId()));
          int lent = lent(member, part);
          refuseUnlessItFits("count", "There are not so many", part, lent, part.owned(), lent);
          Faults faults = new Faults();
          pieces(
              faults,
              member,
              part,
              event.kind(),
              event.kind().countsPieces() || event.pieces() != 0
                  ? String.valueOf(event.pieces())
                  : null);
          faults.refuseIfAny();
        });
  }

  private int pieces(Faults faults, Member member, Part part, Kind kind, @Nullable String typed) {
    if (!kind.countsPieces()) {
      if (typed != null && !typed.isBlank()) {
        faults.add(
            "count",
            "Leave the count out: as many are owned after one was "
                + kind.word()
                + " as before. How many it was may stand in the note.");
      }
      return 0;
    }
    boolean ownedOnesMade =
        kind == Kind.MADE
            && part.owned() > 0
            && events.standing(member.ledgerId(), List.of(part.id()), Set.of(Kind.MADE)).isEmpty();
    return faults.wholeNumber(
        "count",
        typed,
        "how many were " + kind.word(),
        kind == Kind.MADE ? 0 : 1,
        Parts.MOST_OWNED,
        ownedOnesMade ? 0 : 1);
  }

  /**
   * Strikes out an event, and undoes what it did to how many are owned or lent.
   *
   * @throws NotThere if there is no such part or event
   * @throws Refusal if it has been struck out already, no reason is given, or what happened since
   *     rests on it
   */
  @Transactional
  public Outcome strikeOut(Member member, String code, UUID uuid, @Nullable String reason) {
    Part part = parts.locked(member, code);
    LifeEvent event =
        events
            .findByLedgerIdAndPartIdAndUuid(member.ledgerId(), part.id(), uuid)
            .orElseThrow(() -> new NotThere("life event"));
    Faults faults = new Faults();
    String readReason = faults.text("reason", reason, "a reason", 500);
    faults.refuseIfAny();
    if (voidings.existsByLedgerIdAndId(member.ledgerId(), event.id())) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "This has been struck out already.");
    }
    int owned = part.owned() - event.kind().ownedBy(event.pieces());
    int lentBefore = lent(member, part);
    int lent = lentBefore - event.kind().lentBy(event.pieces());
    refuseUnlessItFits(
        "",
        "What was noted since rests on this: strike that out first",
        part,
        lentBefore,
        owned,
        lent);
    voidings.save(new LifeEventVoiding(event, readReason, now(), member));
    return own(member, part, owned, lent, new Logged(event, readReason));
  }

  /** What is lent is among what is owned. */
  private static void refuseUnlessItFits(
      String field, String words, Part part, int lentBefore, int owned, int lent) {
    if (owned < 0 || lent < 0 || lent > owned || owned > Parts.MOST_OWNED) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          field,
          words + ". Now " + part.owned() + " are owned, " + lentBefore + " of them lent.");
    }
  }

  private Outcome own(Member member, Part part, int owned, int lent, Logged logged) {
    if (owned != part.owned()) {
      parts.own(member, part, owned);
    }
    return new Outcome(logged, part, lent);
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
