package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import org.tareline.statics.Hang;

/**
 * One end of a hang, at its nominal figures: the joint where suspension, ridge line and body meet,
 * with the forces on it, and beside it the same forces head to tail, to one scale. That they close
 * says that the joint is in balance. Every attribute is ready for a template.
 *
 * @param scaleBar a length of so many newtons
 */
record ForceDrawing(
    String id,
    String title,
    String described,
    List<Arrow> body,
    List<Arrow> polygon,
    String jointX,
    String jointY,
    String scaleFrom,
    String scaleTo,
    String scaleBar) {

  static final int WIDTH = 460;
  static final int HEIGHT = 210;
  private static final double JOINT_X = 115;
  private static final double JOINT_Y = 112;
  private static final double POLYGON_X = 345;
  private static final double LONGEST = 98;
  private static final double HEAD = 8;

  /**
   * A force.
   *
   * @param path of the shaft and the head
   * @param letter what the table calls it, and where it stands
   */
  record Arrow(String path, String letter, String x, String y) {}

  /** A force by its parts in newtons, to the right and down. */
  private record Pull(String letter, double right, double down) {}

  static ForceDrawing of(
      String id, String title, Hang.End end, Hang.EndLoads loads, double ridge, boolean left) {
    double outward = left ? -1 : 1;
    double angle = Math.toRadians(end.angle().nominal());
    double tension = loads.tension().nominal();
    double vertical = loads.vertical().nominal();
    double bodySideways = loads.horizontal().nominal() - ridge;
    List<Pull> pulls = new ArrayList<>();
    pulls.add(new Pull("T", outward * tension * Math.cos(angle), -tension * Math.sin(angle)));
    if (ridge > 0) {
      pulls.add(new Pull("R", -outward * ridge, 0));
    }
    pulls.add(new Pull("B", -outward * bodySideways, vertical));
    double perNewton = LONGEST / tension;

    List<Arrow> body = new ArrayList<>();
    for (Pull pull : pulls) {
      body.add(arrow(JOINT_X, JOINT_Y, pull, perNewton, true));
    }
    double width = Math.abs(pulls.get(0).right()) * perNewton;
    double height = Math.abs(pulls.get(0).down()) * perNewton;
    double x = POLYGON_X - outward * width / 2;
    double y = JOINT_Y + height / 2;
    List<Arrow> polygon = new ArrayList<>();
    for (Pull pull : pulls) {
      polygon.add(arrow(x, y, pull, perNewton, false));
      x += pull.right() * perNewton;
      y += pull.down() * perNewton;
    }
    double step = Math.pow(10, Math.floor(Math.log10(tension / 2)));
    double shown = tension / 2 >= 5 * step ? 5 * step : tension / 2 >= 2 * step ? 2 * step : step;
    return new ForceDrawing(
        id,
        title,
        "T, the suspension, "
            + newtons(tension)
            + ", up and outward at "
            + LoadWords.decimals(end.angle().nominal(), 1)
            + "°; "
            + (ridge > 0 ? "R, the ridge line, " + newtons(ridge) + ", inward; " : "")
            + "B, the body, "
            + newtons(loads.bodyPull().nominal())
            + ", down and inward. Head to tail they close.",
        body,
        polygon,
        at(JOINT_X),
        at(JOINT_Y),
        at(POLYGON_X - 50),
        at(POLYGON_X - 50 + shown * perNewton),
        newtons(shown));
  }

  private static String newtons(double force) {
    return LoadWords.decimals(force, 0) + "\u00a0N";
  }

  /** From a place, with its letter past the tip or, in a polygon, beside the middle. */
  private static Arrow arrow(double x, double y, Pull pull, double perNewton, boolean atTip) {
    double right = pull.right() * perNewton;
    double down = pull.down() * perNewton;
    double length = Math.hypot(right, down);
    double ux = length == 0 ? 1 : right / length;
    double uy = length == 0 ? 0 : down / length;
    double tipX = x + right;
    double tipY = y + down;
    double backX = tipX - ux * HEAD;
    double backY = tipY - uy * HEAD;
    String path =
        "M"
            + at(x)
            + " "
            + at(y)
            + "L"
            + at(tipX)
            + " "
            + at(tipY)
            + "M"
            + at(backX - uy * HEAD / 2)
            + " "
            + at(backY + ux * HEAD / 2)
            + "L"
            + at(tipX)
            + " "
            + at(tipY)
            + "L"
            + at(backX + uy * HEAD / 2)
            + " "
            + at(backY - ux * HEAD / 2);
    double letterX = atTip ? tipX + ux * 14 : x + right / 2 - uy * 13;
    double letterY = atTip ? tipY + uy * 14 : y + down / 2 + ux * 13;
    return new Arrow(path, pull.letter(), at(letterX), at(letterY + 5));
  }

  private static String at(double place) {
    return LoadWords.decimals(place, 1);
  }

  public String viewBox() {
    return "0 0 " + WIDTH + " " + HEIGHT;
  }
}
