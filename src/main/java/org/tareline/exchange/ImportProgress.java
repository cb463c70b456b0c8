package org.tareline.exchange;

import java.util.concurrent.atomic.AtomicLong;

/** How far an import has come; read while it runs. */
public final class ImportProgress {

  private final AtomicLong rows = new AtomicLong();
  private volatile long rowsInAll;
  private volatile String file = "";

  /** From the beginning, where it is made again. */
  void expect(long all) {
    rows.set(0);
    rowsInAll = all;
  }

  void begin(String next) {
    file = next;
  }

  void row() {
    rows.incrementAndGet();
  }

  /** Rows that were read. */
  public long rows() {
    return rows.get();
  }

  /** Rows that there are, by the manifest; 0 where there is none. */
  public long rowsInAll() {
    return rowsInAll;
  }

  /** The file that is being read; empty before the first. */
  public String file() {
    return file;
  }
}
