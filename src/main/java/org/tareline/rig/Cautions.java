package org.tareline.rig;

import java.util.List;

/** What everybody is told who is shown a load, whatever the figures. */
public final class Cautions {

  /** On every page, answer and print-out that bears on loads, in this order. */
  public static final List<String> ALL =
      List.of(
          "A fall can injure or kill. Hang low, over clear and level ground, and test with your weight close to it first.",
          "The anchors have to hold too: a tree must be living, sound and thick enough, and nothing here says that it is.",
          "Ratings are of new, undamaged line. Sun, wear, wet, heat, dirt and age take from them.",
          "Knots and hitches weaken a line, and slick line can slip through them well below its strength.",
          "Inspect every line, stitch, knot, bar and fitting before each use, and retire what you doubt.",
          "Loads are at rest, times the allowance that was set. Dropping in, swinging and a second person load it more.",
          "The joints, tips and locks of a bar can fail before the bar itself bows out.",
          "Not for lifting, climbing, fall arrest or anything else that holds a person up high.",
          "Local rules and makers' ratings come before these figures. Ask a qualified person where you are not sure.");

  private Cautions() {}
}
