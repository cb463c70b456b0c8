package org.tareline.ledger;

/**
 * A ledger has just been made and is still empty. Heard in the same transaction, so that what a
 * ledger must have from the start is there or the ledger is not.
 *
 * @param owner its owner
 * @param withSample whether the sample ledger is to be put into it
 */
public record LedgerOpened(Member owner, boolean withSample) {}
