package org.tareline.units;

/**
 * What a quantity measures. Each kind has one base unit, in which its exact value is held and in
 * which the API answers when no other is asked for.
 */
public enum Kind {
  MASS("mass", "13 1/4 oz"),
  LENGTH("length", "4 ft 6 in"),
  AREA("area", "2.4 m²"),
  AREA_DENSITY("mass per area", "54 g/m²"),
  LINE_DENSITY("mass per length", "3.1 g/m"),
  FORCE("force", "1500 lbf"),
  FORCE_PER_LENGTH("force per length", "12 N/m"),
  MODULUS("modulus of elasticity", "70 GPa"),
  ANGLE("angle", "30 deg"),
  VOLUME("volume", "750 mL"),
  DENSITY("mass per volume", "0.79 g/mL"),
  TEMPERATURE("temperature", "-5 °C"),
  ENERGY("energy", "450 kcal"),
  ENERGY_PER_MASS("energy per mass", "4.5 kcal/g"),
  SPEED("speed", "4 km/h");

  private final String word;
  private final String example;

  Kind(String word, String example) {
    this.word = word;
    this.example = example;
  }

  /** The kind as pages and the API say it: {@code mass per area}. */
  public String word() {
    return word;
  }

  /** One text of this kind that {@link Quantity#read(String)} reads. */
  public String example() {
    return example;
  }

  /**
   * The unit whose factor is one: g, m, m², g/m², g/m, N, N/m, MPa, deg, mL, g/mL, °C, kJ, kJ/g or
   * m/s.
   */
  public Unit base() {
    return switch (this) {
      case MASS -> Unit.GRAM;
      case LENGTH -> Unit.METRE;
      case AREA -> Unit.SQUARE_METRE;
      case AREA_DENSITY -> Unit.GRAM_PER_SQUARE_METRE;
      case LINE_DENSITY -> Unit.GRAM_PER_METRE;
      case FORCE -> Unit.NEWTON;
      case FORCE_PER_LENGTH -> Unit.NEWTON_PER_METRE;
      case MODULUS -> Unit.MEGAPASCAL;
      case ANGLE -> Unit.DEGREE;
      case VOLUME -> Unit.MILLILITRE;
      case DENSITY -> Unit.GRAM_PER_MILLILITRE;
      case TEMPERATURE -> Unit.CELSIUS;
      case ENERGY -> Unit.KILOJOULE;
      case ENERGY_PER_MASS -> Unit.KILOJOULE_PER_GRAM;
      case SPEED -> Unit.METRE_PER_SECOND;
    };
  }

  /** The word with its article, for sentences: {@code an angle}. */
  String one() {
    return ("ae".indexOf(word.charAt(0)) < 0 ? "a " : "an ") + word;
  }
}
