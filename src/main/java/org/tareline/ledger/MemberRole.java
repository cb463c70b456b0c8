package org.tareline.ledger;

import java.util.Optional;
import org.tareline.site.Codes;

/** What a member may do in a ledger; each may do what stands below it. */
public enum MemberRole {
  OWNER("owner", "does everything, and says who else is in the ledger"),
  EDITOR("editor", "weighs, adds and changes things"),
  READER("reader", "looks, and changes nothing"),
  /** Nobody's role: whoever was sent a link to one page. */
  GUEST("guest", "sees one page");

  private final String word;
  private final String pageWords;

  MemberRole(String word, String pageWords) {
    this.word = word;
    this.pageWords = pageWords;
  }

  /** The word in the API and on pages. */
  public String word() {
    return word;
  }

  /** What it is allowed, in words. */
  public String pageWords() {
    return pageWords;
  }

  /** Whether it may do all that the other may. */
  boolean reaches(MemberRole other) {
    return ordinal() <= other.ordinal();
  }

  /** Reads the word of a role that a member can have. */
  static Optional<MemberRole> of(String word) {
    String key = Codes.key(word);
    for (MemberRole role : values()) {
      if (role != GUEST && role.word.equals(key)) {
        return Optional.of(role);
      }
    }
    return Optional.empty();
  }
}
