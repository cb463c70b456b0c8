package org.tareline.weighing;

import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.ledger.Member;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.site.Sha256;

/**
 * Lets a sender who is not sure that an entry arrived send it again. The same key with the same
 * body is answered as the first time and writes nothing; with another body it is refused. The key
 * and the weighing are written in one transaction, so that the one is never there without the
 * other.
 */
@Service
public class KeyedEntries {

  private static final int LONGEST_KEY = 200;

  private final KeyedEntryRepository entries;
  private final TransactionOperations transactions;

  KeyedEntries(KeyedEntryRepository entries, TransactionOperations transactions) {
    this.entries = entries;
    this.transactions = transactions;
  }

  /** A weighing that was logged, and the answer to it as it is sent. */
  public record Logged(Weighing weighing, String answer) {}

  /**
   * An answer, and whether it was given before.
   *
   * @param text the answer as it is sent
   */
  public record Answer(String text, boolean again) {}

  /**
   * Answers an entry once.
   *
   * @param key the sender's, or null to log it whatever came before
   * @param body the entry, and what it is of, in a form that is the same for the same entry
   * @param log logs the entry and writes the answer to it
   * @throws Refusal if the key came with another body, or as {@code log} does
   */
  public Answer once(Member member, @Nullable String key, String body, Supplier<Logged> log) {
    if (key != null && (key.isBlank() || key.length() > LONGEST_KEY)) {
      throw Refusal.badInput(
          "key", "Give a key of 1 to " + LONGEST_KEY + " characters, or leave it out.");
    }
    String hash = Sha256.hex(body);
    Optional<Answer> first = firstAnswer(member, key, hash);
    if (first.isPresent()) {
      return first.get();
    }
    try {
      return transactions.execute(
          status -> {
            Logged logged = log.get();
            if (key != null) {
              entries.save(new KeyedEntry(member.ledgerId(), key, hash, logged));
            }
            return new Answer(logged.answer(), false);
          });
    } catch (DataIntegrityViolationException raced) {
      // The same key came twice at the same moment: the other one was first.
      return firstAnswer(member, key, hash).orElseThrow(() -> raced);
    }
  }

  private Optional<Answer> firstAnswer(Member member, @Nullable String key, String hash) {
    if (key == null) {
      return Optional.empty();
    }
    return entries
        .findByLedgerIdAndKey(member.ledgerId(), key)
        .map(
            entry -> {
              if (!entry.isFor(hash)) {
                throw Refusal.of(
                    Refusal.Kind.CONFLICT,
                    "key",
                    "The key "
                        + Faults.shortened(key)
                        + " came before with another entry, which was kept as weighing "
                        + entry.weighing()
                        + ". Nothing was written now.");
              }
              return new Answer(entry.answer(), true);
            });
  }
}
