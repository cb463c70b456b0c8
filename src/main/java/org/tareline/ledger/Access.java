package org.tareline.ledger;

import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import org.springframework.http.server.PathContainer;
import org.springframework.web.util.pattern.PathPattern;
import org.springframework.web.util.pattern.PathPatternParser;

/**
 * Who may do what, as one table: the first rule that fits an address decides. Which things somebody
 * sees there is another matter and part of every query: another ledger's thing is not there,
 * whatever role one has.
 */
final class Access {

  /** What it takes. */
  enum Needs {
    /** Nothing: a stranger may. */
    NOTHING,
    /** An account, in whichever ledger. */
    ACCOUNT,
    /** An account that signed in by its password, for a token must not make more of itself. */
    PASSWORD,
    /** To be in the ledger. */
    READER,
    EDITOR,
    OWNER,
    /**
     * To be the account that was made first on the server, signed in by its password: what is the
     * whole server's holds every ledger on it, and is no one ledger's owner's.
     */
    FIRST_ACCOUNT;

    /** What it takes, as a sentence. */
    String words() {
      return switch (this) {
        case NOTHING, ACCOUNT, READER -> "Sign in to see this.";
        case PASSWORD -> "Sign in by name and password for this: a token may not.";
        case EDITOR -> "It takes an editor or an owner of this ledger to change it.";
        case OWNER -> "It takes an owner of this ledger.";
        case FIRST_ACCOUNT ->
            "It takes the account that was made first on this server, signed in by its password.";
      };
    }

    /**
     * Whether a member of this role may, who came by a token or by a password.
     *
     * @param first whether it is the account that was made first on the server
     */
    boolean metBy(MemberRole role, boolean byToken, BooleanSupplier first) {
      return switch (this) {
        case NOTHING, ACCOUNT -> true;
        case PASSWORD -> !byToken;
        case READER -> role.reaches(MemberRole.GUEST);
        case EDITOR -> role.reaches(MemberRole.EDITOR);
        case OWNER -> role == MemberRole.OWNER;
        case FIRST_ACCOUNT -> !byToken && first.getAsBoolean();
      };
    }
  }

  /**
   * A rule.
   *
   * @param methods it holds for; any where empty
   */
  record Rule(Set<String> methods, PathPattern pattern, Needs needs) {

    boolean fits(String method, PathContainer path) {
      return (methods.isEmpty() || methods.contains(method)) && pattern.matches(path);
    }
  }

  private static final Set<String> READING = Set.of("GET", "HEAD", "OPTIONS");
  private static final Set<String> SENDING = Set.of("POST");
  private static final Set<String> ANY = Set.of();

  /** The table. */
  static final List<Rule> TABLE =
      List.of(
          // What a stranger finds.
          rule(ANY, "/sign-in", Needs.NOTHING),
          rule(SENDING, "/sign-in/refused", Needs.NOTHING),
          rule(ANY, "/first-visit", Needs.NOTHING),
          rule(ANY, "/error", Needs.NOTHING),
          rule(READING, "/assets/**", Needs.NOTHING),
          rule(READING, "/webjars/**", Needs.NOTHING),
          rule(READING, "/favicon.ico", Needs.NOTHING),
          rule(READING, "/packing-worker.js", Needs.NOTHING),
          rule(READING, "/api/openapi/**", Needs.NOTHING),
          // That the server is well, and no more than that.
          rule(READING, "/actuator/health/**", Needs.NOTHING),
          // Whoever sends the token that was set for it, which is seen to there.
          rule(READING, "/metrics", Needs.NOTHING),
          // Whoever has the secret in the address may; whoever has it not finds nothing there.
          rule(READING, "/shared/{secret}", Needs.NOTHING),
          rule(ANY, "/new-password/{secret}", Needs.NOTHING),
          rule(READING, "/invitation/{secret}", Needs.NOTHING),
          rule(SENDING, "/invitation/{secret}", Needs.NOTHING),
          // What is the account's own, whatever it is in a ledger.
          rule(ANY, "/account/**", Needs.ACCOUNT),
          rule(ANY, "/invitation/{secret}/sign-in", Needs.ACCOUNT),
          rule(ANY, "/api/v1/tokens/**", Needs.PASSWORD),
          rule(READING, "/api/v1/ledgers", Needs.ACCOUNT),
          rule(ANY, "/api/v1/ledgers/**", Needs.PASSWORD),
          // Who else is in the ledger.
          rule(READING, "/members", Needs.READER),
          rule(READING, "/api/v1/members", Needs.READER),
          rule(ANY, "/members/**", Needs.OWNER),
          rule(ANY, "/api/v1/members/**", Needs.OWNER),
          rule(ANY, "/api/v1/invitations/**", Needs.OWNER),
          // What holds every ledger of the server.
          rule(ANY, "/exchange/backups/**", Needs.FIRST_ACCOUNT),
          rule(ANY, "/api/v1/backups/**", Needs.FIRST_ACCOUNT),
          // A ledger that is taken in brings settings, and history in the names of others. Whoever
          // may see everything may take a copy of it along.
          rule(ANY, "/api/v1/import", Needs.OWNER),
          rule(ANY, "/exchange/import/**", Needs.OWNER),
          rule(ANY, "/exchange/table/**", Needs.EDITOR),
          // What is sent to be reckoned with, and leaves nothing behind.
          rule(SENDING, "/api/v1/loads/**", Needs.READER),
          rule(SENDING, "/api/v1/provisions/**", Needs.READER),
          rule(SENDING, "/trips/{code}/provisions", Needs.READER),
          rule(SENDING, "/api/v1/{kind}/{code}/what-if", Needs.READER),
          // All the rest.
          rule(READING, "/**", Needs.READER),
          rule(ANY, "/**", Needs.EDITOR));

  private Access() {}

  private static Rule rule(Set<String> methods, String pattern, Needs needs) {
    return new Rule(methods, PathPatternParser.defaultInstance.parse(pattern), needs);
  }

  /**
   * What it takes.
   *
   * @param path within the application
   */
  static Needs needs(String method, PathContainer path) {
    return TABLE.stream()
        .filter(rule -> rule.fits(method, path))
        .findFirst()
        .map(Rule::needs)
        .orElseThrow();
  }
}
