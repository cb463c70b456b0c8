package org.tareline.rig;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;
import org.tareline.site.Codes;
import org.tareline.statics.Element;

/** Where in the path of the load a line or a bar of a rig stands. */
public enum LoadPlace {
  LINE("line", Element.Place.LINE),
  TREE_STRAP("tree strap", Element.Place.LINE),
  SUSPENSION("suspension", Element.Place.LINE),
  LEG("leg", Element.Place.LEG),
  RIDGE_LINE("ridge line", Element.Place.RIDGE_LINE),
  BAR("bar", Element.Place.BAR),
  BODY_EDGE("body edge", Element.Place.BODY_EDGE);

  private final String word;
  private final Element.Place place;

  LoadPlace(String word, Element.Place place) {
    this.word = word;
    this.place = place;
  }

  /** The word in API, files and database, and on pages. */
  public String word() {
    return word;
  }

  Element.Place place() {
    return place;
  }

  public static Optional<LoadPlace> of(String word) {
    String key = Codes.key(word);
    return Arrays.stream(values()).filter(place -> place.word.equals(key)).findFirst();
  }

  /** All words, for sentences. */
  static String words() {
    return Arrays.stream(values()).map(LoadPlace::word).collect(Collectors.joining(", "));
  }
}
