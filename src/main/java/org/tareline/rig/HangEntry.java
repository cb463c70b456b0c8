package org.tareline.rig;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A hang as somebody typed it. Angles, lengths, forces and masses may carry a ±.
 *
 * @param load mass of all that hangs, or its weight as a force
 * @param dynamicAllowance what that is multiplied by; 1 when left out
 * @param ends two
 * @param bodyEdge null where the edges of the body are not asked about
 */
public record HangEntry(
    @Nullable String load,
    @Nullable String dynamicAllowance,
    @Nullable String designFactor,
    @Nullable List<@Nullable EndEntry> ends,
    @Nullable List<@Nullable ElementEntry> elements,
    @Nullable EdgeEntry bodyEdge) {

  /**
   * One end: an angle, or the run and rise that make it, measured from the load point.
   *
   * @param bodyAngle of the body's end as loaded, where a ridge line is tied at the apex
   */
  public record EndEntry(
      @Nullable String angle,
      @Nullable String run,
      @Nullable String rise,
      @Nullable String bodyAngle,
      @Nullable BarEntry bar) {}

  /**
   * A spreader bar, with its legs by their length or by the distance from apex to bar.
   *
   * @param edgeAngle by which the body's edge converges towards the axis at the bar; none when left
   *     out
   * @param wall a rod when left out
   * @param yield stress that it yields at; may be left out
   */
  public record BarEntry(
      @Nullable String length,
      @Nullable String leg,
      @Nullable String apexDistance,
      @Nullable String edgeAngle,
      @Nullable String outerDiameter,
      @Nullable String wall,
      @Nullable String modulus,
      @Nullable String yield) {}

  /**
   * Something that has to hold.
   *
   * @param strength not known when left out
   * @param termination what its ends leave of the strength, from 0 to 1; all of it when left out
   * @param where in the path of the load; line when left out
   */
  public record ElementEntry(
      @Nullable String name,
      @Nullable String strength,
      @Nullable String strengthKind,
      @Nullable String termination,
      @Nullable String where) {}

  /** The long edge of a body between two bars, as a shallow line. */
  public record EdgeEntry(@Nullable String span, @Nullable String sag) {}
}
