package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/**
 * Makes the files of the sample anew from an export. Run by hand: {@code mvn test
 * -Dtest=SampleFromExport -Dsample.from=ledger.zip}.
 */
@FeatureTest
class SampleFromExport {

  @Test
  void the_sample_is_made_anew(TestLedger empty) throws IOException {
    String from = System.getProperty("sample.from");
    assertThat(from).as("the export, by -Dsample.from").isNotNull();
    Map<String, String> files = new LinkedHashMap<>();
    try (ZipFile zip = new ZipFile(from)) {
      for (Table table : LedgerTables.ALL) {
        try (InputStream bytes = zip.getInputStream(zip.getEntry(table.file()))) {
          files.put(table.file(), new String(bytes.readAllBytes(), StandardCharsets.UTF_8));
        }
      }
    }
    for (Table table : LedgerTables.ALL) {
      Files.deleteIfExists(Path.of("sample-data", table.file()));
    }
    for (Map.Entry<String, String> file :
        SampleFiles.of(new Parcel(files), Parcel.of(empty)).entrySet()) {
      Files.writeString(Path.of("sample-data", file.getKey()), file.getValue());
    }
  }
}
