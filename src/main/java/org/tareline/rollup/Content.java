package org.tareline.rollup;

/** What a line of an assembly holds: a single piece, or another assembly. */
public sealed interface Content permits Piece, Assembly {

  /** What makes it this one and no other. */
  String id();

  /** The short code on its label. */
  String code();

  /** Its name, in plain words. */
  String name();
}
