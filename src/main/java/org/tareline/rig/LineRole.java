package org.tareline.rig;

import org.jspecify.annotations.Nullable;
import org.tareline.rollup.Roles;
import org.tareline.site.Faults;

/** What a line does in its rig, read from what was typed. A word of the ledger's own will do. */
final class LineRole {

  private static final int LONGEST = 60;

  private LineRole() {}

  static String read(Faults faults, String field, @Nullable String typed) {
    String text = faults.text(field, typed, "a role, such as body", LONGEST);
    String role = Roles.normalise(text);
    if (role.length() > LONGEST && text.length() <= LONGEST) {
      // In small letters, or as the one word for it, it may take more room than it was typed in.
      faults.add(field, "Shorten the role: " + LONGEST + " characters fit.");
    }
    return role;
  }
}
