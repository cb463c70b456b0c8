package org.tareline.part.web;

import java.util.Locale;
import org.tareline.part.CutForm;
import org.tareline.part.CutSize;

/** What lines of a cut list and their sizes are called on pages. */
final class Words {

  private Words() {}

  static String of(CutForm form) {
    return switch (form) {
      case RECTANGLE -> "Panel, rectangle";
      case TRAPEZOID -> "Panel, trapezoid";
      case TRIANGLE -> "Panel, triangle";
      case ELLIPSE -> "Panel, circle or ellipse";
      case PARABOLIC_EDGES -> "Panel, both long edges cut as parabolas";
      case PARABOLIC_SEGMENT -> "Panel, segment of a parabola";
      case RUN -> "Cord, webbing or tape";
      case SEAM -> "Thread of a seam";
      case EACH -> "Hardware, by the piece";
      case FILL -> "Filling";
    };
  }

  static String of(CutSize size) {
    String words = size.words();
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
