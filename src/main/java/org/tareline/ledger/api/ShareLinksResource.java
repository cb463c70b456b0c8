package org.tareline.ledger.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import jakarta.servlet.http.HttpServletRequest;
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
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.ledger.ShareLinks;
import org.tareline.site.json.Listed;

/** Links that show one page to whoever has them. */
@RestController
@RequestMapping("/api/v1/share-links")
class ShareLinksResource {

  /**
   * A link to be made.
   *
   * @param page what it shows, such as {@code /rigs/CODE/statement?scope=anchor-to-anchor}
   */
  record LinkRequest(@Nullable String page) {}

  /**
   * A link.
   *
   * @param link its address; left out but in the answer to its making, for it is kept nowhere
   */
  record LinkJson(
      UUID id,
      String page,
      String title,
      Instant madeAt,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String link) {

    static LinkJson of(ShareLinks.Kept kept, @Nullable String link) {
      return new LinkJson(kept.id(), kept.page(), kept.title(), kept.madeAt(), link);
    }
  }

  private final ShareLinks links;

  ShareLinksResource(ShareLinks links) {
    this.links = links;
  }

  @GetMapping
  Listed<LinkJson> all(Member member) {
    return Listed.whole(links.of(member).stream().map(kept -> LinkJson.of(kept, null)).toList());
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  LinkJson make(Member member, @RequestBody LinkRequest sent, HttpServletRequest request) {
    ShareLinks.Made made = links.make(member, sent.page());
    return LinkJson.of(
        made.link(),
        ServletUriComponentsBuilder.fromContextPath(request).path(made.path()).toUriString());
  }

  @DeleteMapping("/{id}")
  @ResponseStatus(HttpStatus.NO_CONTENT)
  void revoke(Member member, @PathVariable UUID id) {
    links.revoke(member, id);
  }
}
