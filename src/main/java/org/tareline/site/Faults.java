package org.tareline.site;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriUtils;
import org.tareline.units.UnreadableQuantity;

/**
 * Gathers every fault of what was sent before anything is refused, so that nobody has to send it
 * five times.
 */
public final class Faults {

  private final List<Refusal.Fault> faults = new ArrayList<>();
  private Refusal.Kind kind = Refusal.Kind.BAD_INPUT;

  public Faults add(String field, String message) {
    faults.add(new Refusal.Fault(field, message));
    return this;
  }

  /** A fault that is a conflict with what is kept; alone, it makes the refusal one of conflict. */
  public Faults conflict(String field, String message) {
    if (faults.isEmpty()) {
      kind = Refusal.Kind.CONFLICT;
    }
    return add(field, message);
  }

  /** The field of an entry of an object, by its name, so that its pointer is one (RFC 6901, 6). */
  public static String entry(String object, String name) {
    String escaped = name.replace("~", "~0").replace("/", "~1");
    return object + "." + UriUtils.encode(escaped, StandardCharsets.UTF_8).replace(".", "%2E");
  }

  /** What was noted so far, in its order. */
  public List<Refusal.Fault> found() {
    return List.copyOf(faults);
  }

  public boolean none() {
    return faults.isEmpty();
  }

  /** What the reading gives, or null with the fault noted at the field. */
  public <T> @Nullable T read(String field, Supplier<T> reading) {
    try {
      return reading.get();
    } catch (UnreadableQuantity unreadable) {
      add(field, String.valueOf(unreadable.getMessage()));
      return null;
    }
  }

  /**
   * What the making gives, or null with the faults of its refusal noted under the name of what
   * holds its fields.
   */
  public <T> @Nullable T within(String holder, Supplier<T> making) {
    try {
      return making.get();
    } catch (Refusal refusal) {
      refusal.faults().forEach(fault -> add(holder + "." + fault.field(), fault.message()));
      return null;
    }
  }

  /** What the making gives, or null with the faults of its refusal noted once each. */
  public <T> @Nullable T gather(Supplier<T> making) {
    try {
      return making.get();
    } catch (Refusal refusal) {
      for (Refusal.Fault fault : refusal.faults()) {
        if (!faults.contains(fault) && refusal.kind() == Refusal.Kind.CONFLICT) {
          conflict(fault.field(), fault.message());
        } else if (!faults.contains(fault)) {
          faults.add(fault);
        }
      }
      return null;
    }
  }

  /**
   * Text that has to be there, stripped, no longer than the limit and without control characters.
   */
  public String text(String field, @Nullable String typed, String what, int limit) {
    String text = typed == null ? "" : typed.strip();
    if (text.isEmpty()) {
      add(field, "Give " + what + ".");
    }
    return checked(field, text, what, limit);
  }

  /** As {@link #text}, or null when nothing was typed. */
  public @Nullable String optionalText(
      String field, @Nullable String typed, String what, int limit) {
    String text = typed == null ? "" : typed.strip();
    return text.isEmpty() ? null : checked(field, text, what, limit);
  }

  private String checked(String field, String text, String what, int limit) {
    if (text.length() > limit) {
      add(
          field,
          "Shorten " + what + ": it has " + text.length() + " characters, and " + limit + " fit.");
    }
    if (text.chars()
        .anyMatch(c -> Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t')) {
      add(field, "Leave control characters out of " + what + ".");
    }
    return text;
  }

  /** A whole number within the bounds; {@code missing} when nothing was typed. */
  public int wholeNumber(
      String field, @Nullable String typed, String what, int least, int most, int missing) {
    String text = typed == null ? "" : typed.strip();
    if (text.isEmpty()) {
      return missing;
    }
    try {
      int number = Integer.parseInt(text);
      if (number >= least && number <= most) {
        return number;
      }
    } catch (NumberFormatException notWhole) {
      // said below, with the bounds
    }
    add(
        field,
        "Give "
            + what
            + " as a whole number from "
            + least
            + " to "
            + most
            + "; read \""
            + shortened(text)
            + "\".");
    return missing;
  }

  /** The start of a text, for quoting it in a message. */
  public static String shortened(String text) {
    return text.length() <= 60 ? text : text.substring(0, 60) + "…";
  }

  /**
   * Ends the checking.
   *
   * @throws Refusal with every fault noted, if there is one
   */
  public void refuseIfAny() {
    if (!faults.isEmpty()) {
      throw new Refusal(kind, faults);
    }
  }
}
