package org.tareline.site.json;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A list as the API answers it.
 *
 * @param next the address of the items that follow, left out when there are none
 */
public record Listed<T>(
    List<T> items, @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String next) {

  /** The whole of a list. */
  public static <T> Listed<T> whole(List<T> items) {
    return new Listed<>(items, null);
  }
}
