package org.tareline.exchange;

import java.util.List;

/**
 * What a zip of a ledger says of itself.
 *
 * @param format {@link #FORMAT}
 * @param version of the format
 * @param exportedAt ISO 8601, UTC
 */
record Manifest(String format, int version, String exportedAt, List<Entry> files) {

  static final String FILE = "manifest.json";
  static final String FORMAT = "tareline ledger";
  static final int VERSION = 1;

  /**
   * A file.
   *
   * @param rows without the line of headings
   * @param sha256 of its bytes (FIPS 180-4), in hexadecimal
   */
  record Entry(String file, long rows, String sha256) {}
}
