package org.tareline.rig;

import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** Reads what a thing is to weigh at most. A bare number is in grams. */
public final class Targets {

  private Targets() {}

  /** The mass, or null where none is named or, with the fault noted, it cannot be read. */
  public static @Nullable Mass read(Faults faults, @Nullable String typed) {
    String text = faults.optionalText("target", typed, "the target", 200);
    Quantity read =
        text == null || !faults.none()
            ? null
            : faults.read("target", () -> Quantity.read(text, Kind.MASS, Unit.GRAM).positive());
    return read == null ? null : read.mass();
  }
}
