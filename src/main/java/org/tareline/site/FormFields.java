package org.tareline.site;

import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What the form fragments ask for: ids of controls, and what is wrong with each. */
@Component("formFields")
public final class FormFields {

  /** One of several things to choose from in a form. */
  public record Choice(String value, String words) {}

  /** The id of the control of a field: {@code lines[2].quantity} is {@code lines-2-quantity}. */
  public static String id(String field) {
    return field.replace("[", "-").replace("]", "").replace('.', '-');
  }

  /** The field of the whole list, where one control holds it: of {@code readings[1]}, readings. */
  public static String whole(String field) {
    int entry = field.indexOf('[');
    return entry < 0 ? field : field.substring(0, entry);
  }

  /** The revision that a form was filled in from; one that there never is where it names none. */
  public static int revision(@Nullable String typed) {
    return typed != null && typed.matches("[0-9]{1,9}") ? Integer.parseInt(typed) : -1;
  }

  /** As {@link #id}, for templates. */
  public String idOf(String field) {
    return id(field);
  }

  /** All that is wrong with a field, or null. */
  public @Nullable String fault(@Nullable List<Refusal.Fault> faults, String field) {
    if (faults == null) {
      return null;
    }
    String messages =
        faults.stream()
            .filter(fault -> fault.field().equals(field))
            .map(Refusal.Fault::message)
            .collect(Collectors.joining(" "));
    return messages.isEmpty() ? null : messages;
  }

  /** The ids of what describes a control, for {@code aria-describedby}, or null. */
  public @Nullable String describedBy(String field, @Nullable String hint, @Nullable String fault) {
    String ids =
        (hint == null ? "" : id(field) + "-hint ") + (fault == null ? "" : id(field) + "-error");
    return ids.isEmpty() ? null : ids.strip();
  }
}
