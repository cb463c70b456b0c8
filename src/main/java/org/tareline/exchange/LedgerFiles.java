package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;
import org.springframework.core.io.ClassPathResource;

/** Where the files of a ledger lie. */
interface LedgerFiles {

  /**
   * Opens a file.
   *
   * @return null when there is no such file
   */
  @Nullable InputStream open(String name) throws IOException;

  /** Those in a folder that ships with the program. */
  static LedgerFiles shippedIn(String folder) {
    return name -> {
      ClassPathResource file = new ClassPathResource(folder + "/" + name);
      return file.exists() ? file.getInputStream() : null;
    };
  }
}
