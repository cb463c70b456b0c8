package org.tareline.exchange;

import java.util.concurrent.atomic.AtomicLong;

/** How far an import has come; read while it runs. */
public final class ImportProgress {

  private final AtomicLong rows = new AtomicLong();
  private volatile long rowsInAll;
  private volatile String file = "";
  private volatile boolean stopped;

  /** Thrown through an import that is not to go on, so that nothing of it is written. */
  static final class Stopped extends RuntimeException {
    Stopped() {
      super("not to go on", null, false, false);
    }
  }

  /** From the beginning, where it is made again. */
  void expect(long all) {
    rows.set(0);
    rowsInAll = all;
  }

  void begin(String next) {
    file = next;
  }

  /** Has the import end at its next row. */
  void stop() {
    stopped = true;
  }

  void row() {
    if (stopped) {
      throw new Stopped();
    }
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
