package org.tareline.rig.api;

import org.jspecify.annotations.Nullable;
import org.tareline.rig.HangFigures;

/** How a rig holds, as in the answer of the loads themselves. */
record HeldJson(HangJson.@Nullable LeastJson least, String verdict) {

  static HeldJson of(HangFigures figures) {
    return new HeldJson(HangJson.LeastJson.of(figures), figures.assessment().verdict().word());
  }
}
