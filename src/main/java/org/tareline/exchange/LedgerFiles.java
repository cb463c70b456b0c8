package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;
import org.springframework.core.io.ClassPathResource;

/** Where the files of a ledger lie. */
interface LedgerFiles {

  /** The bytes of a file; null where there is none. */
  @Nullable InputStream read(String file) throws IOException;

  /** How many rows a file is said to have; null where nothing says it. */
  default @Nullable Long rowsOf(String file) {
    return null;
  }

  /** Those in a folder that ships with the program. */
  static LedgerFiles shippedIn(String folder) {
    return name -> {
      ClassPathResource file = new ClassPathResource(folder + "/" + name);
      return file.exists() ? file.getInputStream() : null;
    };
  }
}
