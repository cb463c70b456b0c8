package org.tareline.rig;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Strength;

/**
 * The loads of a rig as it is hung.
 *
 * @param hung null where nobody has said how it is hung; then there are no figures
 * @param elements in the order of those of the figures
 * @param unsaid codes of parts whose role carries load and of which nothing is said
 * @param revision of the set-up; 0 where there is none
 */
public record RigLoad(
    Rig rig,
    HangLoads.@Nullable Entry hung,
    @Nullable HangFigures figures,
    List<InPath> elements,
    List<String> unsaid,
    int revision) {

  /**
   * A part in the path of the load.
   *
   * @param strength null where it is not known
   * @param termination null where nothing is said of its ends
   * @param factor what they leave, as a number with its ±; null where that is not known
   * @param source where that comes from
   * @param gone whether the rig no longer holds the part
   * @param stretch by how much one length of it gets longer under its load, in m; null where its
   *     length, its stretch at breaking or its strength is not known
   */
  public record InPath(
      String part,
      String name,
      LoadPlace place,
      @Nullable Strength strength,
      @Nullable Termination termination,
      @Nullable String factor,
      @Nullable String source,
      boolean gone,
      @Nullable Double stretch) {}
}
