package org.tareline.ledger;

import com.nulabinc.zxcvbn.Strength;
import com.nulabinc.zxcvbn.Zxcvbn;
import java.lang.ref.SoftReference;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/**
 * What is asked of a password that somebody chooses: its length, and that it is not among the first
 * that anybody would guess. How many guesses it would take is what zxcvbn says, by lists of common
 * passwords, names and words, by runs on a keyboard, by dates and repetitions.
 */
final class NewPassword {

  /** OWASP ASVS 5.0.0, 6.2.1 and 6.2.9: no fewer may be allowed, and 64 have to be possible. */
  private static final int SHORTEST = 12;

  private static final int LONGEST = 200;

  /** Of zxcvbn's scores the first that stands for 10^8 guesses or more. */
  private static final int SAFE_ENOUGH = 3;

  /**
   * The guesses are counted for so many characters in front: they take the longer the more there
   * are, and what is hard to guess in front is not easier with more behind it.
   */
  private static final int MOST_MEASURED = 32;

  /** OWASP ASVS 5.0.0, 6.1.2: what somebody who knows this application would try first. */
  private static final List<String> WORDS_OF_THE_TRADE =
      List.of("tareline", "hammock", "tarp", "ridgeline", "suspension", "quilt", "ledger", "gear");

  /** Some ten megabytes of lists that are seldom wanted. */
  private static SoftReference<@Nullable Zxcvbn> lists = new SoftReference<>(null);

  private NewPassword() {}

  /**
   * Reads what was typed, exactly as typed.
   *
   * @param accountName which the password is not to be made of
   */
  static String read(Faults faults, @Nullable String typed, String accountName) {
    String password = typed == null ? "" : typed;
    int length = password.codePointCount(0, password.length());
    if (length < SHORTEST) {
      faults.add("password", "Choose a password of at least " + SHORTEST + " characters.");
    } else if (length > LONGEST) {
      faults.add("password", "Choose a password of at most " + LONGEST + " characters.");
    } else if (score(password, accountName) < SAFE_ENOUGH) {
      faults.add(
          "password",
          "Choose a password that is harder to guess: this one is made of common words or names,"
              + " of what is repeated, or of keys in a row. A short sentence of your own is good.");
    }
    return password;
  }

  private static int score(String password, String accountName) {
    String key = Codes.key(accountName);
    Strength strength =
        lists()
            .measure(
                password.substring(0, Math.min(password.length(), MOST_MEASURED)),
                Stream.of(WORDS_OF_THE_TRADE, List.of(key), List.of(key.split("\\s+")))
                    .flatMap(List::stream)
                    .filter(word -> !word.isEmpty())
                    .distinct()
                    .toList());
    return strength.getScore();
  }

  private static synchronized Zxcvbn lists() {
    Zxcvbn held = lists.get();
    if (held == null) {
      held = new Zxcvbn();
      lists = new SoftReference<>(held);
    }
    return held;
  }
}
