package org.tareline.site;

/**
 * There is no such thing in this ledger, or it is another ledger's: the two look alike from
 * outside.
 */
public final class NotThere extends RuntimeException {

  public NotThere(String what) {
    super(what);
  }
}
