package org.tareline.ledger.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.ledger.Tokens;
import org.tareline.site.json.Listed;

/** The account's tokens for the ledger at hand. */
@RestController
@RequestMapping("/api/v1/tokens")
class TokensResource {

  /**
   * A token to be made.
   *
   * @param expires when it ends; until it is taken back where left out
   */
  record TokenRequest(
      @Nullable String name, @Nullable String expires, @Nullable Boolean readOnly) {}

  /**
   * A token.
   *
   * @param token its text; left out but in the answer to its making, for it is kept nowhere
   */
  record TokenJson(
      UUID id,
      String name,
      boolean readOnly,
      Instant madeAt,
      @Nullable Instant expiresAt,
      @Nullable Instant revokedAt,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String token) {

    static TokenJson of(Tokens.Kept kept, @Nullable String text) {
      return new TokenJson(
          kept.id(),
          kept.name(),
          kept.readOnly(),
          kept.madeAt(),
          kept.expiresAt(),
          kept.revokedAt(),
          text);
    }
  }

  private final Tokens tokens;

  TokensResource(Tokens tokens) {
    this.tokens = tokens;
  }

  @GetMapping
  Listed<TokenJson> all(Member member) {
    return Listed.whole(tokens.of(member).stream().map(kept -> TokenJson.of(kept, null)).toList());
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  TokenJson make(Member member, @RequestBody TokenRequest sent) {
    Tokens.Made made =
        tokens.make(
            member,
            new Tokens.Entry(sent.name(), sent.expires(), Boolean.TRUE.equals(sent.readOnly())));
    return TokenJson.of(made.token(), made.text());
  }

  @DeleteMapping("/{id}")
  @ResponseStatus(HttpStatus.NO_CONTENT)
  void revoke(Member member, @PathVariable UUID id) {
    tokens.revoke(member, id);
  }
}
