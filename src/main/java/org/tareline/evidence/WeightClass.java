package org.tareline.evidence;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.tareline.units.Mass;

/**
 * The classes of check weights from 1 mg to 50 kg, and how far from its nominal value a weight of
 * one may be: OIML R 111-1:2004, table 1, from memory.
 */
public enum WeightClass {
  E1,
  E2,
  F1,
  F2,
  M1,
  M2,
  M3;

  /** In milligrams: a nominal value, then the errors of E1 to M3 as far as the class goes down. */
  private static final double[][] TABLE = {
    {1, 0.003, 0.006, 0.020, 0.06, 0.20},
    {2, 0.003, 0.006, 0.020, 0.06, 0.20},
    {5, 0.003, 0.006, 0.020, 0.06, 0.20},
    {10, 0.003, 0.008, 0.025, 0.08, 0.25},
    {20, 0.003, 0.010, 0.03, 0.10, 0.3},
    {50, 0.004, 0.012, 0.04, 0.12, 0.4},
    {100, 0.005, 0.016, 0.05, 0.16, 0.5, 1.6},
    {200, 0.006, 0.020, 0.06, 0.20, 0.6, 2.0},
    {500, 0.008, 0.025, 0.08, 0.25, 0.8, 2.5},
    {1_000, 0.010, 0.03, 0.10, 0.3, 1.0, 3.0, 10},
    {2_000, 0.012, 0.04, 0.12, 0.4, 1.2, 4.0, 12},
    {5_000, 0.016, 0.05, 0.16, 0.5, 1.6, 5.0, 16},
    {10_000, 0.020, 0.06, 0.20, 0.6, 2.0, 6.0, 20},
    {20_000, 0.025, 0.08, 0.25, 0.8, 2.5, 8.0, 25},
    {50_000, 0.03, 0.10, 0.3, 1.0, 3.0, 10, 30},
    {100_000, 0.05, 0.16, 0.5, 1.6, 5.0, 16, 50},
    {200_000, 0.10, 0.3, 1.0, 3.0, 10, 30, 100},
    {500_000, 0.25, 0.8, 2.5, 8.0, 25, 80, 250},
    {1_000_000, 0.5, 1.6, 5.0, 16, 50, 160, 500},
    {2_000_000, 1.0, 3.0, 10, 30, 100, 300, 1_000},
    {5_000_000, 2.5, 8.0, 25, 80, 250, 800, 2_500},
    {10_000_000, 5.0, 16, 50, 160, 500, 1_600, 5_000},
    {20_000_000, 10, 30, 100, 300, 1_000, 3_000, 10_000},
    {50_000_000, 25, 80, 250, 800, 2_500, 8_000, 25_000},
  };

  private final Map<Mass, Mass> errors = new HashMap<>();

  static {
    for (double[] row : TABLE) {
      for (int i = 1; i < row.length; i++) {
        values()[i - 1].errors.put(milligrams(row[0]), milligrams(row[i]));
      }
    }
  }

  private static Mass milligrams(double milligrams) {
    return new Mass(Math.round(milligrams * 1e6));
  }

  /** The class so called, in any case. */
  public static Optional<WeightClass> of(String word) {
    String name = word.strip().toUpperCase(Locale.ROOT);
    for (WeightClass each : values()) {
      if (each.name().equals(name)) {
        return Optional.of(each);
      }
    }
    return Optional.empty();
  }

  /**
   * ± by which a weight of this class may be off; nothing where the table has no such weight. There
   * is no reading between its rows.
   */
  public Optional<Mass> maximumPermissibleError(Mass nominal) {
    return Optional.ofNullable(errors.get(nominal));
  }
}
