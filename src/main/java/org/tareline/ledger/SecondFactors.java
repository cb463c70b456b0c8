package org.tareline.ledger;

import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.web.util.UriUtils;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/**
 * The second factor of an account: a code from a device that shares a secret with the server, or
 * one of ten codes kept on paper. Each is taken once.
 */
@Service
public class SecondFactors {

  /** What whoever sets it up has to give to the device. */
  public record ToShare(String typed, String address) {}

  /**
   * How it stands with an account.
   *
   * @param asked whether it is asked for at sign-in
   * @param secret where it is being set up
   * @param codesLeft of those on paper
   */
  public record Standing(boolean asked, @Nullable ToShare secret, int codesLeft) {}

  /** Whether each account may set one up, or has to. */
  enum Rule {
    OPTIONAL,
    REQUIRED
  }

  private static final Logger LOG = LoggerFactory.getLogger(SecondFactors.class);
  private static final SecureRandom RANDOM = new SecureRandom();
  private static final int CODES = 10;

  /** 120 bits: OWASP ASVS 5.0.0, 6.5.2 asks for a slow hash only below 112. */
  private static final int CODE_BYTES = 15;

  private final AccountRepository accounts;
  private final RecoveryCodeRepository codes;
  private final PasswordEncoder passwords;
  private final SignInThrottle throttle;
  private final Seal seal;
  private final Clock clock;
  private final Rule rule;

  SecondFactors(
      AccountRepository accounts,
      RecoveryCodeRepository codes,
      PasswordEncoder passwords,
      SignInThrottle throttle,
      Seal seal,
      Clock clock,
      @Value("${tareline.second-factor}") Rule rule) {
    this.accounts = accounts;
    this.codes = codes;
    this.passwords = passwords;
    this.throttle = throttle;
    this.seal = seal;
    this.clock = clock;
    this.rule = rule;
  }

  /** Whether each account has to set one up at its next sign-in. */
  public boolean required() {
    return rule == Rule.REQUIRED;
  }

  /** Whether anybody on this server is asked for a code. */
  @Transactional(readOnly = true)
  public boolean anywhere() {
    return accounts.existsBySecondFactorSinceIsNotNull();
  }

  /**
   * Whether codes of some device cannot be checked, for the key that they are kept under is lost.
   */
  public boolean keyLost() {
    return seal.keyLost();
  }

  /** How it stands with the member's account. */
  @Transactional(readOnly = true)
  public Standing of(Member member) {
    Account account = one(member);
    return new Standing(
        account.asksForCode(),
        account.asksForCode()
            ? null
            : secret(account).map(secret -> toShare(account.name(), secret)).orElse(null),
        codes.left(account.id()));
  }

  /** Nothing also where it was sealed under a key that is lost. */
  private Optional<byte[]> secret(Account account) {
    return Optional.ofNullable(account.secondFactorSecret()).flatMap(seal::open);
  }

  private static ToShare toShare(String name, byte[] secret) {
    String typed = TimeCodes.base32(secret);
    return new ToShare(
        typed.replaceAll("(?<=.)(?=(.{4})+$)", " "),
        "otpauth://totp/Tareline:"
            + UriUtils.encode(name, StandardCharsets.UTF_8)
            + "?secret="
            + typed
            + "&issuer=Tareline");
  }

  /**
   * Begins to set it up, or begins anew.
   *
   * @throws Refusal if it is asked for already
   */
  @Transactional
  public void begin(Member member) {
    Account account = one(member);
    if (account.asksForCode()) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "Switch the present one off first.");
    }
    byte[] secret = new byte[TimeCodes.SECRET_BYTES];
    RANDOM.nextBytes(secret);
    account.prepareSecondFactor(seal.seal(secret));
    accounts.forgetStep(account.id());
  }

  /**
   * Switches it on, by a code that shows that the device has the secret.
   *
   * @return the codes for paper, the one time that they are there
   * @throws Refusal if the code is not good
   */
  @Transactional
  public List<String> confirm(Member member, @Nullable String code) {
    Account account = one(member);
    if (account.secondFactorSecret() == null || account.asksForCode()) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "code", "Begin to set it up first.");
    }
    Faults faults = new Faults();
    check(faults, account, code);
    faults.refuseIfAny();
    account.askForCode(now());
    codes.forget(account.id());
    LOG.info("Switched its second factor on: account {}", account.id());
    return Stream.generate(SecondFactors::fresh)
        .limit(CODES)
        .peek(text -> codes.save(new RecoveryCode(account.id(), hash(text))))
        .toList();
  }

  private static String fresh() {
    byte[] bytes = new byte[CODE_BYTES];
    RANDOM.nextBytes(bytes);
    return TimeCodes.base32(bytes).toLowerCase(Locale.ROOT).replaceAll("(.{6})(?=.)", "$1-");
  }

  private static String hash(String code) {
    return Secret.hash(code.toLowerCase(Locale.ROOT).replaceAll("[\\s-]", ""));
  }

  /**
   * Switches it off.
   *
   * @throws Refusal if the password or the code is not good
   */
  @Transactional
  public void switchOff(Member member, @Nullable String password, @Nullable String code) {
    Account account = one(member);
    Faults faults = new Faults();
    if (left(account.id()).isZero()
        && (password == null || !passwords.matches(password, account.passwordHash()))) {
      throttle.failed(guesser(account.id()), "");
      faults.add("present", "Type the password that you sign in with.");
    } else {
      check(faults, account, code);
    }
    faults.refuseIfAny();
    forget(account);
  }

  /** Asks for none any more, whatever is known of it. */
  void forget(Account account) {
    account.dropSecondFactor();
    codes.forget(account.id());
    LOG.info("Switched its second factor off: account {}", account.id());
  }

  private void check(Faults faults, Account account, @Nullable String code) {
    Duration wait = left(account.id());
    if (!wait.isZero()) {
      faults.add("code", "Wait " + (wait.toSeconds() + 1) + " s, and give the next code.");
    } else if (!accepts(account, code)) {
      faults.add("code", "Give the code that the device shows now; each is taken once.");
    }
  }

  /** How long is to be waited before a code of this account is looked at. */
  Duration left(long accountId) {
    return throttle.wait(guesser(accountId), "");
  }

  private static String guesser(long accountId) {
    return "code of account " + accountId;
  }

  /** Whether a code is good, which it is not once more. */
  @Transactional
  boolean accepts(long accountId, @Nullable String code) {
    return accepts(accounts.findById(accountId).orElseThrow(), code);
  }

  private boolean accepts(Account account, @Nullable String typed) {
    String code = typed == null ? "" : typed.replaceAll("\\s", "");
    String kept = account.secondFactorSecret();
    boolean good;
    if (kept != null && code.matches("[0-9]{6}")) {
      byte[] secret = secret(account).orElse(null);
      if (secret == null) {
        // Whatever the code: it is no guess that went wrong.
        return false;
      }
      OptionalLong step = TimeCodes.stepOf(code, secret, clock.instant());
      good = step.isPresent() && accounts.useStep(account.id(), step.getAsLong()) == 1;
      if (good && seal.isOpen(kept)) {
        account.prepareSecondFactor(seal.seal(secret));
      }
    } else {
      good = account.asksForCode() && codes.use(account.id(), hash(code), now()) == 1;
    }
    if (good) {
      throttle.succeeded(guesser(account.id()), "");
    } else {
      throttle.failed(guesser(account.id()), "");
    }
    return good;
  }

  private Account one(Member member) {
    return accounts.findById(member.accountId()).orElseThrow(() -> new NotThere("account"));
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
