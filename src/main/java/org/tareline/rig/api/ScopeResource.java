package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.rig.Scopes;
import org.tareline.rollup.Scope;
import org.tareline.site.json.Listed;

/** What may be counted in a total. */
@RestController
@RequestMapping("/api/v1/scopes")
class ScopeResource {

  /**
   * A scope, as it is sent and answered: the roles it counts or those it leaves out, never both.
   *
   * @param counts nothing else is counted
   * @param leavesOut everything else is counted
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ScopeJson(
      @Nullable String code,
      @Nullable String name,
      @Nullable List<@Nullable String> counts,
      @Nullable List<@Nullable String> leavesOut) {

    static ScopeJson of(Scope scope) {
      boolean counts = scope.mode() == Scope.Mode.COUNTS;
      List<@Nullable String> roles = List.copyOf(scope.roles());
      return new ScopeJson(
          scope.code(), scope.name(), counts ? roles : null, counts ? null : roles);
    }
  }

  private final Scopes scopes;

  ScopeResource(Scopes scopes) {
    this.scopes = scopes;
  }

  @GetMapping
  Listed<ScopeJson> all(Member member) {
    return Listed.whole(scopes.all(member).stream().map(ScopeJson::of).toList());
  }

  @GetMapping("/{code}")
  ScopeJson one(Member member, @PathVariable String code) {
    return ScopeJson.of(scopes.get(member, code));
  }

  @PostMapping
  ResponseEntity<ScopeJson> add(Member member, @RequestBody ScopeJson request) {
    Scope scope =
        scopes.add(
            member,
            new Scopes.Entry(
                request.code(), request.name(), request.counts(), request.leavesOut()));
    URI address =
        UriComponentsBuilder.fromPath("/api/v1/scopes")
            .pathSegment("{code}")
            .encode()
            .buildAndExpand(scope.code())
            .toUri();
    return ResponseEntity.created(address).body(ScopeJson.of(scope));
  }
}
