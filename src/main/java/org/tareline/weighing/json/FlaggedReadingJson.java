package org.tareline.weighing.json;

import java.util.List;
import org.tareline.evidence.OutlierScreen;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;
import org.tareline.weighing.Weighing;

/**
 * A reading that stands apart from the others of its weighing. It counts all the same.
 *
 * @param index its place among the readings, from 0
 * @param tests which say so: grubbs, modified z
 */
public record FlaggedReadingJson(int index, QuantityJson reading, List<String> tests) {

  /** Those of a weighing, in the order of its readings. */
  public static List<FlaggedReadingJson> of(Weighing weighing, Unit unit) {
    return weighing.flagged().stream()
        .map(
            flag ->
                new FlaggedReadingJson(
                    flag.index(),
                    QuantityJson.of(flag.reading(), unit),
                    flag.tests().stream().map(OutlierScreen.Test::word).toList()))
        .toList();
  }
}
