package org.tareline.rig.web;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.web.util.UriComponentsBuilder;
import org.springframework.web.util.UriUtils;
import org.tareline.ledger.Member;
import org.tareline.ledger.SharedPage;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;

/** The weight statement of a rig, as a page that may be shown by a link. */
@Component
class StatementLink implements SharedPage {

  private static final Pattern PAGE = Pattern.compile("/rigs/([^/?#]+)/statement(?:\\?([^#]*))?");

  private final Rigs rigs;
  private final Scopes scopes;

  StatementLink(Rigs rigs, Scopes scopes) {
    this.rigs = rigs;
    this.scopes = scopes;
  }

  @Override
  public Optional<String> title(Member member, String page) {
    Matcher parts = PAGE.matcher(page);
    if (!parts.matches()) {
      return Optional.empty();
    }
    Rig rig = rigs.get(member, UriUtils.decode(parts.group(1), StandardCharsets.UTF_8));
    String scope =
        UriComponentsBuilder.fromUriString(page).build().getQueryParams().getFirst("scope");
    return Optional.of(
        "Weight statement of "
            + rig.name()
            + ", "
            + scopes
                .get(member, scope == null ? null : UriUtils.decode(scope, StandardCharsets.UTF_8))
                .name());
  }

  /** The address of the page as it is shown. */
  static String page(Rig rig, @Nullable String scope, @Nullable String target) {
    return UriComponentsBuilder.fromPath("/rigs/{code}/statement")
        .queryParamIfPresent("scope", Optional.ofNullable(scope))
        .queryParamIfPresent("target", Optional.ofNullable(target))
        .encode()
        .buildAndExpand(rig.code())
        .toUriString();
  }
}
