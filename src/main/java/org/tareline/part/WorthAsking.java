package org.tareline.part;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;

/**
 * Told by whoever takes parts along: which of them are worth a question. Declared here, where it is
 * shown.
 */
public interface WorthAsking {

  /**
   * Something that comes up again and again.
   *
   * @param code of the part; null of a thing that is none
   * @param words what comes up, such as {@code not used on its last 3 trips}
   */
  record Question(@Nullable String code, String name, String words) {}

  /** What has come up in this ledger, by name. */
  List<Question> questions(Member member);
}
