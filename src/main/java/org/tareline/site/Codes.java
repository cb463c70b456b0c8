package org.tareline.site;

import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Codes that fit on a label. Two codes that differ in case alone are the same code. */
public final class Codes {

  /** The most characters that a code may have. */
  public static final int LONGEST = 60;

  private static final Pattern FIT_FOR_A_LABEL =
      Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N} ._+#-]*");

  /** What stands where a code would in the address of a page, such as {@code /parts/new}. */
  private static final Set<String> ADDRESSES =
      Set.of("new", "suggestions", "things", "side-by-side", "side-by-side.csv");

  private Codes() {}

  /** The form of a code by which it is found. */
  public static String key(String code) {
    return code.strip().toLowerCase(Locale.ROOT);
  }

  /** Whether a text could be a code, and so is worth looking for. */
  public static boolean couldBe(@Nullable String text) {
    return text != null
        && text.strip().length() <= LONGEST
        && FIT_FOR_A_LABEL.matcher(text.strip()).matches();
  }

  /** A code for a second design of what has this one, such as {@code BODY-V2}. */
  public static String another(String code, Predicate<String> taken) {
    String first = code.replaceFirst("-V[0-9]{1,4}$", "");
    for (int number = 2; ; number++) {
      String mark = "-V" + number;
      String another = first.substring(0, Math.min(first.length(), LONGEST - mark.length())) + mark;
      if (!taken.test(another)) {
        return another;
      }
    }
  }

  /**
   * The code as typed, stripped; a fault is noted where it would not fit on a label or in an
   * address.
   */
  public static String read(Faults faults, String field, @Nullable String typed) {
    String code = faults.text(field, typed, "a code", LONGEST);
    if (!code.isEmpty() && code.length() <= LONGEST && !FIT_FOR_A_LABEL.matcher(code).matches()) {
      faults.add(
          field,
          "Make the code of letters, digits, spaces and . _ + # - and begin it with a letter or digit; read \""
              + Faults.shortened(code)
              + "\".");
    }
    if (ADDRESSES.contains(key(code))) {
      faults.add(field, "Choose another code: " + code + " is the address of a page.");
    }
    return code;
  }
}
