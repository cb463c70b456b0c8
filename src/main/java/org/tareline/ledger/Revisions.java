package org.tareline.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import tools.jackson.databind.json.JsonMapper;

/**
 * What things of a ledger have been: every state that was saved, and every code they were known by.
 * A save that names the revision it started from is refused when somebody else has saved since.
 */
@Service
@Transactional(propagation = Propagation.MANDATORY)
public class Revisions {

  /** That somebody saved a state. */
  public record Saved(String accountName, Instant at) {}

  private final RevisionRepository revisions;
  private final FormerCodeRepository formerCodes;
  private final JsonMapper json;
  private final Clock clock;

  Revisions(
      RevisionRepository revisions,
      FormerCodeRepository formerCodes,
      JsonMapper json,
      Clock clock) {
    this.revisions = revisions;
    this.formerCodes = formerCodes;
    this.json = json;
    this.clock = clock;
  }

  /** Keeps a state as it was just saved. */
  public void keep(Member member, String kind, long subjectId, int number, Object content) {
    revisions.save(
        new Revision(
            member,
            kind,
            subjectId,
            number,
            json.writeValueAsString(content),
            clock.instant().truncatedTo(ChronoUnit.MICROS)));
  }

  /** Who saved the newest state of a thing, and when. */
  public Optional<Saved> lastSaved(Member member, String kind, long subjectId) {
    return revisions.newest(member.ledgerId(), kind, subjectId, Limit.of(1)).stream().findFirst();
  }

  /** Those of these things that were saved after a moment. */
  public Set<Long> savedSince(
      Member member, String kind, Collection<Long> subjectIds, Instant since) {
    return subjectIds.isEmpty()
        ? Set.of()
        : revisions.savedSince(member.ledgerId(), kind, subjectIds.toArray(Long[]::new), since);
  }

  /** Whether any state of a thing had this text in it, such as the id of a line. */
  public boolean everHeld(Member member, String kind, long subjectId, String text) {
    return revisions.everHeld(member.ledgerId(), kind, subjectId, text);
  }

  /**
   * Sees to it that a save starts from the newest state.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws Refusal if somebody else has saved since
   */
  public static void guard(String what, int current, @Nullable Integer expected) {
    if (expected != null && expected != current) {
      throw Refusal.of(
          Refusal.Kind.STALE,
          "",
          "Somebody else has saved "
              + what
              + " since you opened it (revision "
              + expected
              + ", now "
              + current
              + "). Nothing was overwritten: compare the two and save again.");
    }
  }

  /** Which thing once had this code. */
  public Optional<Long> formerly(Member member, String kind, String code) {
    return formerCodes
        .findByLedgerIdAndKindAndCodeKey(member.ledgerId(), kind, Codes.key(code))
        .map(FormerCode::subjectId);
  }

  /**
   * Writes a thing with its code. Somebody may take a code between the look and the leap; the
   * database is the last judge.
   *
   * @throws Refusal if the code was taken meanwhile
   */
  public static void write(String code, Runnable write) {
    try {
      write.run();
    } catch (DataIntegrityViolationException taken) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          "code",
          "Choose another code: " + code + " was taken at this moment.");
    }
  }

  /** Notes a fault where a code is on a printed label of another thing. */
  public void refuseFormerCode(
      Member member, String kind, String code, @Nullable Long ownId, Faults faults) {
    Optional<Long> former = formerly(member, kind, code);
    if (former.isPresent() && !former.get().equals(ownId)) {
      faults.conflict(
          "code", "Choose another code: " + code + " was once the code of another " + kind + ".");
    }
  }

  /**
   * Keeps the old code findable after a change of code; a thing that takes up an old code of its
   * own has it anew.
   */
  public void recode(Member member, String kind, long subjectId, String before, String after) {
    String keyBefore = Codes.key(before);
    String keyAfter = Codes.key(after);
    if (keyBefore.equals(keyAfter)) {
      return;
    }
    formerCodes
        .findByLedgerIdAndKindAndCodeKey(member.ledgerId(), kind, keyAfter)
        .ifPresent(formerCodes::delete);
    formerCodes.save(new FormerCode(member.ledgerId(), kind, keyBefore, subjectId));
  }
}
