package org.tareline.material;

import java.math.BigDecimal;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Stock.Per;
import org.tareline.site.Faults;
import org.tareline.units.Kind;
import org.tareline.units.Length;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;

/**
 * The mass of a material as a seller prints it: per area, per length or of one.
 *
 * @param quantity of the kind that the material goes by
 * @param running the mass per running length, where the seller gives that of cloth
 * @param width and the width it is for
 * @param typed as one text, which reads as the same again
 */
public record Nominal(
    Per per,
    Quantity quantity,
    @Nullable Quantity running,
    @Nullable Quantity width,
    String typed) {

  private static final Pattern AT_A_WIDTH =
      Pattern.compile("(.+?)\\s+at\\s+(.+?)(?:\\s+wide)?", Pattern.CASE_INSENSITIVE);

  /** So many grams for one square metre, metre or piece are believed, in g. */
  private static final BigDecimal MOST = BigDecimal.valueOf(1_000_000);

  /**
   * Reads a nominal mass, such as {@code 54 g/m²}, {@code 40 den}, {@code 4.2 g}, {@code 2.1 oz/yd
   * at 58 in}.
   *
   * @param widthTyped the width that a mass per running length is for, where it is given apart
   * @return null where a fault was noted, at {@code nominal} or {@code nominalWidth}
   */
  static @Nullable Nominal read(
      Faults faults, MaterialKind kind, String typed, @Nullable String widthTyped) {
    Matcher atAWidth = AT_A_WIDTH.matcher(typed);
    String massTyped = atAWidth.matches() ? atAWidth.group(1) : typed;
    String widthInText = atAWidth.matches() ? atAWidth.group(2) : null;
    String widthField = widthTyped == null ? "nominal" : "nominalWidth";
    String widthRead = widthTyped == null ? widthInText : widthTyped;
    Quantity mass = mass(faults, kind, massTyped);
    Quantity width =
        widthRead == null
            ? null
            : faults.read(widthField, () -> Quantity.read(widthRead, Kind.LENGTH, null).positive());
    if (mass == null || (widthRead != null && width == null)) {
      return null;
    }
    if (widthTyped != null && widthInText != null && !says(widthInText, width)) {
      faults.add(
          "nominalWidth",
          "Give one width: the nominal mass is typed with another, " + widthInText + ".");
      return null;
    }
    Per per = per(mass.kind());
    boolean running = per == Per.METRE && kind.per().contains(Per.SQUARE_METRE);
    if (width != null && !running) {
      faults.add(
          widthField,
          "A width turns the mass per running length of cloth into one per area; "
              + "leave it out of "
              + Faults.shortened(typed)
              + ".");
      return null;
    }
    if (running && width == null && !kind.per().contains(Per.METRE)) {
      faults.add(
          "nominalWidth",
          "Give the width that "
              + Faults.shortened(typed)
              + " is for, such as 58 in: "
              + kind.word()
              + " goes by area.");
      return null;
    }
    if (width != null) {
      Quantity perArea = faults.read("nominal", () -> mass.atWidth(width).positive());
      return perArea == null
          ? null
          : within(
              faults,
              new Nominal(
                  Per.SQUARE_METRE, perArea, mass, width, mass.text() + " at " + width.text()));
    }
    if (per == null || !kind.per().contains(per)) {
      faults.add("nominal", wanted(kind, typed) + ".");
      return null;
    }
    return within(faults, new Nominal(per, mass, null, null, mass.text()));
  }

  private static @Nullable Quantity mass(Faults faults, MaterialKind kind, String typed) {
    try {
      return Quantity.read(typed).positive();
    } catch (UnreadableQuantity unreadable) {
      faults.add("nominal", wanted(kind, typed) + ": " + unreadable.reason() + ".");
      return null;
    }
  }

  private static @Nullable Nominal within(Faults faults, Nominal nominal) {
    if (nominal.grams().compareTo(MOST) <= 0) {
      return nominal;
    }
    faults.add("nominal", "Give a nominal mass of at most 1000 kg; read " + nominal.typed() + ".");
    return null;
  }

  private static boolean says(String typed, @Nullable Quantity width) {
    try {
      Length read = Quantity.read(typed, Kind.LENGTH, null).length();
      return width != null && width.length().equals(read);
    } catch (IllegalArgumentException unreadable) {
      return false;
    }
  }

  private static @Nullable Per per(Kind kind) {
    return switch (kind) {
      case AREA_DENSITY -> Per.SQUARE_METRE;
      case LINE_DENSITY -> Per.METRE;
      case MASS -> Per.PIECE;
      default -> null;
    };
  }

  private static String wanted(MaterialKind kind, String typed) {
    return wanted(kind) + "; read \"" + Faults.shortened(typed) + "\"";
  }

  private static String wanted(MaterialKind kind) {
    if (kind.only().isEmpty()) {
      return "Give a mass per area, per length or of one, such as 54 g/m², 3.1 g/m or 4.2 g";
    }
    return switch (kind.only().get()) {
      case SQUARE_METRE ->
          "Give the mass per area of " + kind.word() + ", such as 54 g/m² or 1.3 oz/yd²";
      case METRE -> "Give the mass per length of " + kind.word() + ", such as 3.1 g/m or 40 den";
      case PIECE -> "Give the mass of one, such as 4.2 g: " + kind.word() + " goes by the piece";
    };
  }

  /** In g for one square metre, metre or piece: exact where that is finite, else 17 digits. */
  public BigDecimal grams() {
    return new BigDecimal(quantity.in(unit(per)).value());
  }

  /** The unit in which the API gives what a mass is for. */
  public static Unit unit(Per per) {
    return switch (per) {
      case SQUARE_METRE -> Unit.GRAM_PER_SQUARE_METRE;
      case METRE -> Unit.GRAM_PER_METRE;
      case PIECE -> Unit.GRAM;
    };
  }

  /** What was typed before any width was brought in: what an absolute tolerance is in. */
  Quantity asPrinted() {
    return running == null ? quantity : running;
  }
}
