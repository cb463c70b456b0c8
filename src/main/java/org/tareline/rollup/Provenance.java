package org.tareline.rollup;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Instrument;
import org.tareline.units.Mass;
import org.tareline.units.Unit;

/**
 * How a mass came about, as far as one can look for a mistake in it.
 *
 * @param weighings the weighings it is the mean of: one, or one for each piece where pieces were
 *     weighed one by one; none where it was not weighed
 * @param fibre what the thing is made of, as far as water goes; null where not known
 * @param changes what was done to the thing and may have changed its mass
 */
public record Provenance(List<Weighed> weighings, @Nullable Fibre fibre, List<Change> changes) {

  /** Nothing is known. */
  public static final Provenance UNKNOWN = new Provenance(List.of(), null, List.of());

  public Provenance {
    weighings = List.copyOf(weighings);
    changes = List.copyOf(changes);
  }

  /**
   * A weighing, of one thing or of several of which all but this one are taken off.
   *
   * @param id of the weighing, as its sources of error have it
   * @param readings one or more, the tare still on
   * @param bareUnit the unit of a number typed without one
   * @param tare what was taken off every reading
   * @param count how many alike pieces lay on the pan, 1 or more
   * @param instrument null where the scale was not recorded
   * @param dry whether the thing was dry or aired
   */
  public record Weighed(
      String id,
      List<Reading> readings,
      Unit bareUnit,
      Mass tare,
      int count,
      @Nullable Instrument instrument,
      boolean dry,
      Instant at) {

    public Weighed {
      readings = List.copyOf(readings);
    }
  }

  /** What a scale showed: as typed, and what that was taken to mean. */
  public record Reading(String typed, Mass mass) {}

  /**
   * Something done to a thing.
   *
   * @param word what was done, as {@code repaired}
   */
  public record Change(String word, Instant at) {}
}
