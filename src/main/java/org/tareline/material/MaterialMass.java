package org.tareline.material;

import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Stock;
import org.tareline.evidence.Pooled;

/**
 * What a material weighs, by what a seller printed, by its swatches and by what was learned from
 * parts of it, and which of these is used.
 *
 * @param nominal null where nothing is printed
 * @param weighed the swatches that count, taken together; null where there are none
 * @param swatches how many count
 * @param agree whether their errors explain how far apart they are; else what they say together is
 *     as unsure as they are scattered
 * @param learned null where nothing that was learned has been taken
 * @param against printed or weighed: which of the two is used, or would be had nothing learned been
 *     taken; null where neither is known, or where the material is a filling
 * @param used null where nothing is known, or where the material is a filling
 * @param why in plain words, to follow "used because"
 */
public record MaterialMass(
    @Nullable MassPer nominal,
    @Nullable MassPer weighed,
    int swatches,
    boolean agree,
    @Nullable MassPer learned,
    @Nullable Use against,
    @Nullable Use used,
    String why) {

  /** From so many swatches on that agree, they are used without being chosen. */
  public static final int ENOUGH_SWATCHES = 3;

  /** Which of them counts. */
  public enum Use {
    NOMINAL("nominal"),
    WEIGHED("weighed"),
    /** By parts that were weighed once they were made; only ever by somebody's choice. */
    LEARNED("learned");

    private final String word;

    Use(String word) {
      this.word = word;
    }

    /** The word in API and database. */
    public String word() {
      return word;
    }

    static @Nullable Use of(@Nullable String word) {
      for (Use use : values()) {
        if (use.word.equals(word)) {
          return use;
        }
      }
      return null;
    }
  }

  static MaterialMass of(
      @Nullable MassPer nominal, @Nullable Pooled pooled, int swatches, Material material) {
    MassPer weighed =
        pooled == null || material.per().isEmpty()
            ? null
            : new MassPer(material.per().get(), pooled.estimate());
    boolean agree = pooled == null || pooled.agree();
    Taken taken = material.taken().orElse(null);
    Use chosen = taken == null ? material.chosen().orElse(null) : taken.against();
    Use used;
    String why;
    if (nominal == null && weighed == null) {
      used = null;
      why =
          material.fillPower().isPresent()
              ? "a filling goes by its fill power"
              : "nothing is printed and there is no swatch that counts";
    } else if (nominal == null) {
      used = Use.WEIGHED;
      why = "nothing is printed";
    } else if (weighed == null) {
      used = Use.NOMINAL;
      why = "there is no swatch that counts";
    } else if (chosen != null) {
      used = chosen;
      why = "so it was chosen";
    } else if (swatches < ENOUGH_SWATCHES) {
      used = Use.NOMINAL;
      why = "there are fewer than three swatches";
    } else {
      used = agree ? Use.WEIGHED : Use.NOMINAL;
      why = agree ? "three swatches or more agree" : "the swatches do not agree";
    }
    MassPer learned =
        taken == null ? null : material.per().map(per -> taken.mass(material, per)).orElse(null);
    return learned == null
        ? new MaterialMass(nominal, weighed, swatches, agree, null, used, used, why)
        : new MaterialMass(
            nominal, weighed, swatches, agree, learned, used, Use.LEARNED, "so it was chosen");
  }

  /** The one that is used; null where nothing is known. */
  public @Nullable MassPer inUse() {
    return by(used);
  }

  /** What is used, or would be had nothing learned been taken; null where neither is known. */
  @Nullable MassPer before() {
    return by(against);
  }

  private @Nullable MassPer by(@Nullable Use use) {
    if (use == null) {
      return null;
    }
    return switch (use) {
      case NOMINAL -> nominal;
      case WEIGHED -> weighed;
      case LEARNED -> learned;
    };
  }

  /** Which of them counts, in words. */
  public String words(Material material) {
    return used == null
        ? "by its fill power"
        : switch (used) {
          case NOMINAL -> "as printed, " + material.nominalTyped().orElse("");
          case WEIGHED -> "weighed, by its swatches";
          case LEARNED -> "by parts that were weighed";
        };
  }

  /** For cut lists; null where nothing is known. */
  static @Nullable Stock stock(Material material, @Nullable MassPer mass) {
    return mass == null
        ? null
        : new Stock(
            material.uuid().toString(),
            material.code(),
            mass.per(),
            mass.grams().doubleValue(),
            mass.standardUncertainty(),
            mass.degreesOfFreedom());
  }
}
