package org.tareline.rig;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Embeddable;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.Table;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.tareline.rollup.Roles;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;

/** A scope as a ledger keeps it. */
@Entity
@Table(name = "scope")
class KeptScope {

  private static final String COUNTS = "counts";
  private static final String LEAVES_OUT = "leaves-out";

  /** A role that it names. */
  @Embeddable
  record NamedRole(@Column(name = "ledger_id", nullable = false) long ledgerId, String role) {}

  /** A single line that it leaves out. */
  @Embeddable
  record LeftOutLine(
      @Column(name = "ledger_id", nullable = false) long ledgerId,
      @Column(name = "line_uuid", nullable = false) UUID lineUuid) {}

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String code;

  @Column(name = "code_key", nullable = false)
  private String codeKey;

  @Column(nullable = false)
  private String name;

  @Column(nullable = false)
  private String mode;

  @ElementCollection
  @CollectionTable(name = "scope_role", joinColumns = @JoinColumn(name = "scope_id"))
  @Column
  private Set<NamedRole> roles;

  @ElementCollection
  @CollectionTable(name = "scope_line", joinColumns = @JoinColumn(name = "scope_id"))
  @Column
  private Set<LeftOutLine> leftOutLines;

  protected KeptScope() {}

  KeptScope(long ledgerId, Scope scope) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.code = scope.code();
    this.codeKey = Codes.key(scope.code());
    this.name = scope.name();
    this.mode = scope.mode() == Scope.Mode.COUNTS ? COUNTS : LEAVES_OUT;
    this.roles = new HashSet<>();
    scope.roles().forEach(role -> roles.add(new NamedRole(ledgerId, role)));
    this.leftOutLines = new HashSet<>();
  }

  long id() {
    return id;
  }

  /** The scope itself, its roles in the order of pages. */
  Scope scope() {
    return new Scope(
        code,
        name,
        mode.equals(COUNTS) ? Scope.Mode.COUNTS : Scope.Mode.LEAVES_OUT,
        roles.stream()
            .map(NamedRole::role)
            .sorted(
                Comparator.<String>comparingInt(
                        role ->
                            Roles.ALL.contains(role) ? Roles.ALL.indexOf(role) : Integer.MAX_VALUE)
                    .thenComparing(role -> role))
            .collect(Collectors.toCollection(LinkedHashSet::new)),
        leftOutLines.stream().map(line -> line.lineUuid().toString()).collect(Collectors.toSet()));
  }
}
