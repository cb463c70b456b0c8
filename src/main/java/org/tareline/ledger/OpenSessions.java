package org.tareline.ledger;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.session.Session;
import org.tareline.site.NotThere;

/** Where an account is signed in, and the ending of it. */
public class OpenSessions {

  /**
   * A session as its owner sees it.
   *
   * @param id a digest of the one in the cookie, which opens nothing
   * @param device what kind of browser began it, roughly
   * @param lastUse which is noted every ten minutes
   * @param here whether it is the one that asks
   */
  public record Open(String id, String device, Instant since, Instant lastUse, boolean here) {}

  private final SeldomTouched<?> sessions;

  OpenSessions(SeldomTouched<?> sessions) {
    this.sessions = sessions;
  }

  /** Those of the account, the one that asks in front, and then by their last use. */
  public List<Open> of(Member member, String asking) {
    return sessions.of(member.accountName()).stream()
        .map(
            session ->
                new Open(
                    Secret.hash(session.getId()),
                    session.getAttributeOrDefault(SeldomTouched.DEVICE, "a browser"),
                    session.getCreationTime(),
                    session.getLastAccessedTime(),
                    session.getId().equals(asking)))
        .sorted(
            Comparator.comparing(Open::here)
                .thenComparing(Open::lastUse)
                .reversed()
                .thenComparing(Open::id))
        .toList();
  }

  /**
   * Ends one.
   *
   * @throws NotThere if the account has no such session
   */
  public void end(Member member, String id) {
    Session session =
        sessions.of(member.accountName()).stream()
            .filter(one -> Secret.hash(one.getId()).equals(id))
            .findFirst()
            .orElseThrow(() -> new NotThere("session"));
    sessions.deleteById(session.getId());
  }

  /** Ends all but the one that asks. */
  public void endOthers(Member member, String asking) {
    sessions.of(member.accountName()).stream()
        .map(Session::getId)
        .filter(id -> !id.equals(asking))
        .forEach(sessions::deleteById);
  }

  /** Ends all of an account. */
  void endAll(String accountName) {
    sessions.of(accountName).stream().map(Session::getId).forEach(sessions::deleteById);
  }

  /** A rough word, by the way that browsers on small screens name themselves. */
  static String device(@Nullable String userAgent) {
    if (userAgent == null || !userAgent.startsWith("Mozilla/")) {
      return "a program";
    }
    return userAgent.toLowerCase(Locale.ROOT).contains("mobi") ? "a phone" : "a computer";
  }
}
