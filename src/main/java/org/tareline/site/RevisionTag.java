package org.tareline.site;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The revision of a thing as an entity tag (RFC 9110, 8.8.3): {@code "3"}. To be set on the
 * response itself and not by Spring's {@code ResponseEntity.eTag}, which would answer {@code
 * If-None-Match} with 304: the revision guards a description against being overwritten, while a new
 * weighing changes the answer under the same revision.
 */
public final class RevisionTag {

  private static final Pattern TAG = Pattern.compile("\"([0-9]{1,9})\"");

  private RevisionTag() {}

  public static String of(int revision) {
    return "\"" + revision + "\"";
  }

  /**
   * The revision that {@code If-Match} names; null where there is no such header, or any revision
   * will do ({@code *}).
   *
   * @throws Refusal as stale, if it is anything else: what cannot be compared does not match
   */
  public static @Nullable Integer expected(@Nullable String ifMatch) {
    if (ifMatch == null || ifMatch.strip().equals("*")) {
      return null;
    }
    Matcher tag = TAG.matcher(ifMatch.strip());
    if (!tag.matches()) {
      throw Refusal.of(
          Refusal.Kind.STALE,
          "",
          "Give If-Match as the ETag of a GET, such as \"3\"; read "
              + Faults.shortened(ifMatch)
              + ". Nothing was changed.");
    }
    return Integer.valueOf(tag.group(1));
  }
}
