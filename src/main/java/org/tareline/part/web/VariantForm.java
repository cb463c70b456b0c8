package org.tareline.part.web;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.part.PartVariants;

/**
 * A variant as typed.
 *
 * @param replace code of the material that is replaced; empty where none is
 * @param by code of the one that stands in for it
 */
record VariantForm(
    @Nullable String code,
    @Nullable String name,
    @Nullable String owned,
    @Nullable String replace,
    @Nullable String by) {

  /** What is replaced; nothing where the form is of a plain copy. */
  public Map<String, @Nullable String> replaced() {
    if (replace == null || replace.isBlank()) {
      return Collections.emptyMap();
    }
    Map<String, @Nullable String> replaced = new LinkedHashMap<>();
    replaced.put(replace, Objects.requireNonNullElse(by, ""));
    return replaced;
  }

  PartVariants.Entry entry() {
    return new PartVariants.Entry(code, name, owned, replaced());
  }
}
