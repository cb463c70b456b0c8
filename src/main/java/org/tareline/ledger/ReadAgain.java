package org.tareline.ledger;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.ToLongFunction;
import org.tareline.site.Refusal;

/**
 * Reads what is kept in a table once more as if it were typed now: for what came into a ledger by
 * another way than by being typed. Implemented by each feature for what it keeps, by the checks of
 * its own forms, so that there are no others.
 */
public interface ReadAgain {

  /** The name of the table. */
  String table();

  /**
   * Reads rows again.
   *
   * @param ids of the rows
   * @return by row, what is wrong with it, each fault at the field in which it would have been
   *     typed; nothing of those that are good
   */
  Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids);

  /**
   * Reads each of these things, and gathers what they are refused for. A thing that breaks the
   * reading does not go together either.
   */
  static <T> Map<Long, List<Refusal.Fault>> each(
      Collection<T> things, ToLongFunction<T> id, Consumer<T> reading) {
    Map<Long, List<Refusal.Fault>> faults = new LinkedHashMap<>();
    for (T thing : things) {
      try {
        reading.accept(thing);
      } catch (Refusal refusal) {
        faults.put(id.applyAsLong(thing), refusal.faults());
      } catch (IllegalArgumentException
          | IllegalStateException
          | ArithmeticException
          | NullPointerException impossible) {
        faults.put(
            id.applyAsLong(thing),
            List.of(
                new Refusal.Fault(
                    "", "What this says does not go together: it could not be shown.")));
      }
    }
    return faults;
  }
}
