package org.tareline.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;

/** Tokens, by which programs use the API in place of a password. */
@Service
public class Tokens {

  /** A scheme in front, so that whoever finds one lying about knows what it is. */
  private static final String SCHEME = "tareline_";

  /**
   * A token as somebody asked for it.
   *
   * @param expires when it ends, as typed; until it is taken back where left out
   */
  public record Entry(@Nullable String name, @Nullable String expires, boolean readOnly) {}

  /** A token as it is shown afterwards. */
  public record Kept(
      UUID id,
      String name,
      boolean readOnly,
      Instant madeAt,
      @Nullable Instant expiresAt,
      @Nullable Instant revokedAt) {

    static Kept of(Token token) {
      return new Kept(
          token.uuid(),
          token.name(),
          token.readOnly(),
          token.madeAt(),
          token.expiresAt(),
          token.revokedAt());
    }
  }

  /** A token just made: the one time that its text is there. */
  public record Made(Kept token, String text) {}

  private final TokenRepository tokens;
  private final Clock clock;

  Tokens(TokenRepository tokens, Clock clock) {
    this.tokens = tokens;
    this.clock = clock;
  }

  /** The member's own, in this ledger, newest first, with those that were taken back. */
  @Transactional(readOnly = true)
  public List<Kept> of(Member member) {
    return tokens.of(member.accountId(), member.ledgerId()).stream().map(Kept::of).toList();
  }

  /**
   * Makes a token for the member's ledger.
   *
   * @throws org.tareline.site.Refusal if it has no name or would have ended already
   */
  @Transactional
  public Made make(Member member, Entry entry) {
    Faults faults = new Faults();
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    String name = faults.text("name", entry.name(), "a name, such as what will use it", 100);
    Instant expires =
        entry.expires() == null || entry.expires().isBlank()
            ? null
            : Moments.read(faults, "expires", entry.expires(), clock);
    if (faults.none() && expires != null && !expires.isAfter(now)) {
      faults.add("expires", "Give a time that is still to come.");
    }
    faults.refuseIfAny();
    Secret secret = Secret.fresh();
    return new Made(
        Kept.of(tokens.save(new Token(member, name, secret, entry.readOnly(), now, expires))),
        SCHEME + secret.text());
  }

  /**
   * Takes a token back: from now on it opens nothing.
   *
   * @throws NotThere if the member has no such token
   */
  @Transactional
  public void revoke(Member member, UUID id) {
    tokens
        .one(member.accountId(), member.ledgerId(), id)
        .orElseThrow(() -> new NotThere("token"))
        .revoke(clock.instant().truncatedTo(ChronoUnit.MICROS));
  }

  /** Whom this text signs in; nobody where it is no good token. */
  @Transactional(readOnly = true)
  Optional<SignedIn> signedIn(String text) {
    return text.startsWith(SCHEME)
        ? tokens.signedIn(Secret.hash(text.substring(SCHEME.length())), clock.instant())
        : Optional.empty();
  }
}
