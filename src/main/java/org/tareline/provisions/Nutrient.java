package org.tareline.provisions;

/**
 * What food is made of, and the energy that a gram of it counts for. Kilojoules and kilocalories of
 * a label are two conventions and differ by more than rounding. Values from memory.
 */
public enum Nutrient {
  PROTEIN("protein", "protein", 4, 17, 4),
  FAT("fat", "fat", 9, 37, 9),
  CARBOHYDRATE("carbohydrate", "carbohydrate", 4, 17, 4),
  ALCOHOL("alcohol", "alcohol", 7, 29, 7),
  FIBRE("fibre", "fibre", Double.NaN, 8, 2),
  POLYOLS("polyols", "polyols", Double.NaN, 10, 2.4),
  ORGANIC_ACID("organicAcid", "organic acid", Double.NaN, 13, 3);

  private final String word;
  private final String pageWords;
  private final double atwater;
  private final double labelKilojoules;
  private final double labelKilocalories;

  Nutrient(
      String word,
      String pageWords,
      double atwater,
      double labelKilojoules,
      double labelKilocalories) {
    this.word = word;
    this.pageWords = pageWords;
    this.atwater = atwater;
    this.labelKilojoules = labelKilojoules;
    this.labelKilocalories = labelKilocalories;
  }

  /** The word in the API. */
  public String word() {
    return word;
  }

  public String pageWords() {
    return pageWords;
  }

  /**
   * Atwater's general factor, in kcal/g; not a number where there is none (Merrill and Watt, USDA
   * Handbook 74; 21 CFR 101.9(c)(1)(i)(B)).
   */
  public double atwater() {
    return atwater;
  }

  /** In kJ/g (Regulation (EU) 1169/2011, Annex XIV). */
  public double labelKilojoules() {
    return labelKilojoules;
  }

  /** In kcal/g, of the same. */
  public double labelKilocalories() {
    return labelKilocalories;
  }
}
