package org.tareline.trip.web;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.Function;
import org.tareline.trip.Total;
import org.tareline.trip.Weights;

/** The totals of a trip, in the order of its page. */
enum TripTotal {
  BASE("base", "Base", "in the pack, and brought home", false, Weights::base),
  CONSUMABLES("consumables", "Consumables", "used up on the way", false, Weights::consumables),
  TOTAL_PACK("total-pack", "Total pack", "base and consumables", true, Weights::totalPack),
  WORN("worn", "Worn", "on the body or in the hand", false, Weights::worn),
  SKIN_OUT("skin-out", "Skin-out", "everything", true, Weights::skinOut);

  private final String word;
  private final String pageWords;
  private final String gloss;
  private final boolean sum;
  private final Function<Weights, Total> total;

  TripTotal(
      String word, String pageWords, String gloss, boolean sum, Function<Weights, Total> total) {
    this.word = word;
    this.pageWords = pageWords;
    this.gloss = gloss;
    this.sum = sum;
    this.total = total;
  }

  /** The word in addresses. */
  String word() {
    return word;
  }

  String pageWords() {
    return pageWords;
  }

  /** What is in it, in plain words. */
  String gloss() {
    return gloss;
  }

  /** Whether it is the sum of others. */
  boolean isSum() {
    return sum;
  }

  Total in(Weights weights) {
    return total.apply(weights);
  }

  static Optional<TripTotal> of(String word) {
    return Arrays.stream(values()).filter(total -> total.word.equals(word)).findFirst();
  }
}
