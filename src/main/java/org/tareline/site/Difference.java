package org.tareline.site;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** A field that somebody else has saved otherwise than it was typed meanwhile. */
public record Difference(String field, String saved, String typed) {

  /** Notes a field where the two are not the same text. */
  public static void differ(
      List<Difference> differences, String field, @Nullable String saved, @Nullable String typed) {
    String there = Objects.requireNonNullElse(saved, "").strip();
    String yours = Objects.requireNonNullElse(typed, "").strip();
    if (!there.equals(yours)) {
      differences.add(new Difference(field, there, yours));
    }
  }
}
