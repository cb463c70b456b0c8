package org.tareline.site.json;

import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;
import org.tareline.units.Kind;
import org.tareline.units.Unit;

/** The unit in which an answer is asked for, by {@code unit=}. */
public final class AnswerUnit {

  private AnswerUnit() {}

  /**
   * A unit of mass; grams when none is named.
   *
   * @throws org.tareline.site.Refusal if it is none
   */
  public static Unit ofMass(@Nullable String named) {
    if (named == null || named.isBlank()) {
      return Unit.GRAM;
    }
    Faults faults = new Faults();
    Unit unit = faults.read("unit", () -> Unit.named(named));
    if (unit != null && unit.kind() != Kind.MASS) {
      faults.add(
          "unit",
          "Name a unit of mass, such as g or oz: "
              + unit.symbol()
              + " is one of "
              + unit.kind().word()
              + ".");
    }
    faults.refuseIfAny();
    return unit == null ? Unit.GRAM : unit;
  }
}
