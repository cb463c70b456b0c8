package org.tareline.exchange;

import org.springframework.context.event.EventListener;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.tareline.ledger.LedgerOpened;

/** Puts the sample ledger into a new ledger where its owner wants one. */
@Component
class SampleLedger {

  static final LedgerFiles FILES = LedgerFiles.shippedIn("sample-data");

  private final LedgerImport imports;

  SampleLedger(LedgerImport imports) {
    this.imports = imports;
  }

  /** After everybody else who hears it: by then the ledger has what every ledger starts with. */
  @EventListener
  @Order(Ordered.LOWEST_PRECEDENCE)
  void fill(LedgerOpened opened) {
    if (opened.withSample()) {
      imports.takeIn(opened.owner(), FILES);
    }
  }
}
