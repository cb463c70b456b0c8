package org.tareline.units;

/**
 * A quantity given in a unit.
 *
 * @param kind what it measures
 * @param value a plain decimal with {@code .} as its mark and {@code -} as its minus
 * @param unit the unit of the value
 * @param exact whether the value is the whole truth; if not, it is half-even to 17 significant
 *     digits
 */
public record Conversion(Kind kind, String value, Unit unit, boolean exact) {}
