package org.tareline.part;

import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.units.Kind;

/** The sizes that lines of a cut list may have, each in the base unit of its kind. */
public enum CutSize {
  LENGTH("length", Kind.LENGTH, "1.5 m"),
  WIDTH("width", Kind.LENGTH, "1.4 m"),
  BASE("base", Kind.LENGTH, "3 m"),
  TOP("top", Kind.LENGTH, "2 m"),
  HEIGHT("height", Kind.LENGTH, "1.2 m"),
  DEPTH("depth", Kind.LENGTH, "150 mm"),
  CHORD("chord", Kind.LENGTH, "3 m"),
  LENGTH_ALLOWANCE("lengthAllowance", Kind.LENGTH, "30 mm"),
  WIDTH_ALLOWANCE("widthAllowance", Kind.LENGTH, "40 mm"),
  ALLOWANCE("allowance", Kind.LENGTH, "200 mm"),
  SEAM_THICKNESS("seamThickness", Kind.LENGTH, "0.3 mm"),
  STITCH_LENGTH("stitchLength", Kind.LENGTH, "2.5 mm"),
  RATIO("ratio", null, "2.5"),
  MASS("mass", Kind.MASS, "240 g"),
  AREA("area", Kind.AREA, "2.4 m²"),
  LOFT("loft", Kind.LENGTH, "50 mm"),
  FILL_POWER("fillPower", null, "800");

  private final String word;
  private final @Nullable Kind kind;
  private final String example;

  CutSize(String word, @Nullable Kind kind, String example) {
    this.word = word;
    this.kind = kind;
    this.example = example;
  }

  /** The name in the API, in forms and in the database. */
  public String word() {
    return word;
  }

  /** What people call it: length allowance. */
  public String words() {
    return word.replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
  }

  /** What it is a quantity of; nothing where it is a plain number. */
  public Optional<Kind> kind() {
    return Optional.ofNullable(kind);
  }

  /** One that can be read. */
  public String example() {
    return example;
  }

  static CutSize named(String word) {
    for (CutSize size : values()) {
      if (size.word.equals(word)) {
        return size;
      }
    }
    throw new IllegalArgumentException("A size is stored as " + word);
  }
}
