package org.tareline.units;

/**
 * What is known of the decimal mark in a text. The point and the comma on the line are marks of
 * equal right, and neither parts thousands (22nd CGPM, 2003, Resolution 10; SI Brochure, 9th
 * edition, 5.4.4; ISO 80000-1, clause on the decimal sign, from memory). People part thousands by
 * them all the same, so the mark that is not the known one is read where it can be nothing else
 * than decimal, as in {@code 1,5} or {@code 12.5}, and refused where thousands could be meant, as
 * in {@code 1,234}. Whatever is known, a text is read as one value or refused: never as two values.
 */
public enum DecimalMark {

  /** The point, as wherever nothing else was said: {@code 1.234} reads, {@code 1,234} does not. */
  POINT,

  /**
   * The comma, as somebody said: {@code 1,234} is a little more than one, {@code 1.234} refused.
   */
  COMMA,

  /**
   * One of the two and the same throughout, not known which: of a text that was read before and is
   * kept with its value. Both {@code 1.234} and {@code 1,234} read.
   */
  EITHER
}
