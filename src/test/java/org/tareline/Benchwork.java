package org.tareline;

import java.util.List;
import java.util.Map;

/** What is weighed while servers are killed. */
final class Benchwork {

  static final Map<String, Object> SCALE =
      Map.of("code", "K1", "name", "Bench", "readability", "0.1 g", "capacity", "5 kg");
  static final Map<String, Object> PART =
      Map.of("code", "TP1", "name", "Tarp", "system", "rain", "owned", 1);

  private Benchwork() {}

  static Map<String, Object> weighing(String key) {
    return Map.of("part", "TP1", "scale", "K1", "readings", List.of("381.5 g"), "key", key);
  }
}
