package org.tareline.provisions;

/**
 * What the ground does to the cost of walking (Soule and Goldman 1972, J. Appl. Physiol. 32, 706 to
 * 708). For swampy bog 1.6 is printed too.
 */
public enum Terrain {
  ROAD("road", 1.0),
  DIRT_ROAD("dirt road", 1.1),
  LIGHT_BRUSH("light brush", 1.2),
  HEAVY_BRUSH("heavy brush", 1.5),
  SWAMPY_BOG("swampy bog", 1.8),
  LOOSE_SAND("loose sand", 2.1),
  SOFT_SNOW_15("soft snow, 15 cm", 2.5),
  SOFT_SNOW_25("soft snow, 25 cm", 3.3),
  SOFT_SNOW_35("soft snow, 35 cm", 4.1);

  private final String word;
  private final double factor;

  Terrain(String word, double factor) {
    this.word = word;
    this.factor = factor;
  }

  public String word() {
    return word;
  }

  public double factor() {
    return factor;
  }
}
