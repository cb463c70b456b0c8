package org.tareline.ledger;

/** What a member may do in a ledger. */
public enum MemberRole {
  OWNER,
  EDITOR,
  READER;

  public boolean mayWrite() {
    return this != READER;
  }
}
