package org.tareline.rig;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.LedgerOpened;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/** What may be counted in a total: the scopes of a ledger. */
@Service
@Transactional(readOnly = true)
public class Scopes implements ReadAgain {

  private static final int MOST_ROLES = 100;

  /**
   * A scope as somebody typed it: the roles it counts, or those it leaves out, never both.
   *
   * @param counts roles; null or empty where it leaves out
   * @param leavesOut roles; null or empty where it counts
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable List<@Nullable String> counts,
      @Nullable List<@Nullable String> leavesOut) {}

  private final ScopeRepository scopes;

  Scopes(ScopeRepository scopes) {
    this.scopes = scopes;
  }

  /** Gives a new ledger the scopes that exist from the start, before anything else goes into it. */
  @Order(Ordered.HIGHEST_PRECEDENCE)
  @EventListener
  @Transactional
  public void provide(LedgerOpened opened) {
    for (Scope scope : Scope.BUILT_IN) {
      scopes.save(new KeptScope(opened.owner().ledgerId(), scope));
    }
  }

  /** Those that exist from the start, then the ledger's own in the order they were made. */
  public List<Scope> all(Member member) {
    return scopes.all(member.ledgerId()).stream().map(KeptScope::scope).toList();
  }

  public Optional<Scope> find(Member member, String code) {
    return scopes.named(member.ledgerId(), Codes.key(code)).map(KeptScope::scope);
  }

  /** The scope with this code; the one that leaves nothing out where no code is given. */
  public Scope get(Member member, @Nullable String code) {
    return code == null || code.isBlank()
        ? Scope.COMPLETE
        : find(member, code).orElseThrow(() -> new NotThere("scope as " + Faults.shortened(code)));
  }

  /**
   * Puts a scope into the ledger.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Scope add(Member member, Entry entry) {
    Faults faults = new Faults();
    Scope scope = read(entry, faults);
    if (faults.none() && find(member, scope.code()).isPresent()) {
      faults.conflict("code", "Choose another code: " + scope.code() + " is a scope already.");
    }
    faults.refuseIfAny();
    return scopes.save(new KeptScope(member.ledgerId(), scope)).scope();
  }

  private static Scope read(Entry entry, Faults faults) {
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    Set<String> counts = roles(faults, "counts", entry.counts());
    Set<String> leavesOut = roles(faults, "leavesOut", entry.leavesOut());
    boolean bothOrNeither = counts.isEmpty() == leavesOut.isEmpty();
    if (faults.none() && bothOrNeither) {
      faults.add(
          "leavesOut",
          "Name the roles that are left out, or else those that are counted; "
              + (counts.isEmpty() ? "none are named." : "both cannot be."));
    }
    return new Scope(
        code,
        name,
        counts.isEmpty() ? Scope.Mode.LEAVES_OUT : Scope.Mode.COUNTS,
        counts.isEmpty() ? leavesOut : counts,
        Set.of());
  }

  @Override
  public String table() {
    return "scope";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    return ReadAgain.each(
        scopes.all(member.ledgerId()).stream().filter(kept -> ids.contains(kept.id())).toList(),
        KeptScope::id,
        kept -> {
          Scope scope = kept.scope();
          if (Scope.BUILT_IN.stream().anyMatch(built -> built.code().equals(scope.code()))) {
            return;
          }
          Faults faults = new Faults();
          List<@Nullable String> roles = List.copyOf(scope.roles());
          boolean counts = scope.mode() == Scope.Mode.COUNTS;
          Scope read =
              read(
                  new Entry(
                      scope.code(), scope.name(), counts ? roles : null, counts ? null : roles),
                  faults);
          if (faults.none() && !read.roles().equals(scope.roles())) {
            faults.add("roles", "Write the roles as " + String.join(", ", read.roles()) + ".");
          }
          faults.refuseIfAny();
        });
  }

  private static Set<String> roles(
      Faults faults, String field, @Nullable List<@Nullable String> typed) {
    Set<String> roles = new LinkedHashSet<>();
    if (typed == null) {
      return roles;
    }
    if (typed.size() > MOST_ROLES) {
      faults.add(field, "Name at most " + MOST_ROLES + " roles; there are " + typed.size() + ".");
      return roles;
    }
    for (int i = 0; i < typed.size(); i++) {
      roles.add(LineRole.read(faults, field + "[" + i + "]", typed.get(i)));
    }
    return roles;
  }
}
