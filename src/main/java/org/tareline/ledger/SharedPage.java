package org.tareline.ledger;

import java.util.Optional;

/** A page that may be shown by a link to whoever has it; declared by the feature it belongs to. */
public interface SharedPage {

  /**
   * What a page of this kind shows, in a few words.
   *
   * @param page path and query within the application
   * @return nothing where it is no page of this kind
   * @throws org.tareline.site.NotThere if the thing that it would show is not in the ledger
   */
  Optional<String> title(Member member, String page);
}
