package org.tareline.provisions;

/**
 * Fuels by their gross heat of combustion at 25 °C. What stays vapour on its way out of a stove
 * gives 44.0 kJ/mol of water less: the net heat. Values from memory.
 */
public enum Fuel {
  PROPANE("propane", 2219.2, 44.0956, 4),
  ISOBUTANE("isobutane", 2869.0, 58.1222, 5),
  BUTANE("n-butane", 2877.5, 58.1222, 5),
  ETHANOL("ethanol", 1366.8, 46.0684, 3),
  METHANOL("methanol", 726.0, 32.0419, 2);

  /** Heat of vaporisation of water at 25 °C, in kJ/mol. */
  static final double VAPOUR = 44.0;

  private final String word;
  private final double grossPerMole;
  private final double molarMass;
  private final int water;

  /**
   * @param grossPerMole in kJ/mol
   * @param molarMass in g/mol
   * @param water moles of it that a mole burns to
   */
  Fuel(String word, double grossPerMole, double molarMass, int water) {
    this.word = word;
    this.grossPerMole = grossPerMole;
    this.molarMass = molarMass;
    this.water = water;
  }

  /** The word in the API and on pages. */
  public String word() {
    return word;
  }

  /** With the water condensed, in kJ/g, which is MJ/kg. */
  public double gross() {
    return grossPerMole / molarMass;
  }

  /** With the water gone as vapour, in kJ/g. */
  public double net() {
    return (grossPerMole - VAPOUR * water) / molarMass;
  }
}
