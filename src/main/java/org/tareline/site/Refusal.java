package org.tareline.site;

import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/**
 * What was asked cannot be done, and nothing has been changed. Says every fault at once, each with
 * the field it stands at, so that a page can link to it and the API can point to it.
 */
public final class Refusal extends RuntimeException {

  /** Why a request is refused, as far as an HTTP status can say it. */
  public enum Kind {
    /** What was sent cannot be read or does not fit together. */
    BAD_INPUT(400),
    /** What was sent is at odds with what is kept: a code already taken, a key already used. */
    CONFLICT(409),
    /** Somebody else has changed the thing since it was read. */
    STALE(412),
    /** More was sent than is taken in at once. */
    TOO_LARGE(413);

    private final int status;

    Kind(int status) {
      this.status = status;
    }

    public int status() {
      return status;
    }
  }

  /**
   * One fault.
   *
   * @param field where, as a path into what was sent: {@code lines[2].quantity}; empty for the
   *     whole of it
   * @param message what is wrong and what would be right, as a sentence
   */
  public record Fault(String field, String message) {

    /** The field as a JSON pointer in a URI fragment (RFC 6901, 6): {@code #/lines/2/quantity}. */
    public String pointer() {
      return field.isEmpty()
          ? "#"
          : "#/" + field.replace("[", "/").replace("]", "").replace('.', '/');
    }

    /** The field as the id of a form control: {@code lines-2-quantity}. */
    public String id() {
      return FormFields.id(field);
    }
  }

  private final Kind kind;
  private final transient List<Fault> faults;

  Refusal(Kind kind, List<Fault> faults) {
    super(faults.stream().map(Fault::message).collect(Collectors.joining(" ")));
    this.kind = kind;
    this.faults = List.copyOf(faults);
  }

  /** A refusal for one fault. */
  public static Refusal of(Kind kind, String field, String message) {
    return new Refusal(kind, List.of(new Fault(field, message)));
  }

  /** A refusal of bad input for one fault. */
  public static Refusal badInput(String field, String message) {
    return of(Kind.BAD_INPUT, field, message);
  }

  public Kind kind() {
    return kind;
  }

  /** Every fault, in the order of the fields; never empty. */
  public List<Fault> faults() {
    return faults;
  }

  /** Every fault at the field of a page, which has other names for some, or one for several. */
  public List<Fault> faults(UnaryOperator<String> ofPage) {
    return faults.stream()
        .map(fault -> new Fault(ofPage.apply(fault.field()), fault.message()))
        .toList();
  }
}
