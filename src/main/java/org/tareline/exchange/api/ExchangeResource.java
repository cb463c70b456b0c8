package org.tareline.exchange.api;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.multipart.MultipartFile;
import org.tareline.exchange.ImportProgress;
import org.tareline.exchange.ImportReport;
import org.tareline.exchange.LedgerExport;
import org.tareline.exchange.LedgerImport;
import org.tareline.exchange.ReceivedFile;
import org.tareline.ledger.Member;

/** A whole ledger as one zip, out and in. */
@RestController
@RequestMapping("/api/v1")
class ExchangeResource {

  private static final String ZIP = "application/zip";

  private final LedgerExport export;
  private final LedgerImport intake;
  private final ReceivedFile received;

  ExchangeResource(LedgerExport export, LedgerImport intake, ReceivedFile received) {
    this.export = export;
    this.intake = intake;
    this.received = received;
  }

  @GetMapping(path = "/export", produces = ZIP)
  void export(Member member, HttpServletResponse response) throws IOException {
    response.setContentType(ZIP);
    response.setHeader(
        HttpHeaders.CONTENT_DISPOSITION,
        ContentDisposition.attachment()
            .filename(export.fileName(), StandardCharsets.UTF_8)
            .build()
            .toString());
    export.write(member, response.getOutputStream());
  }

  /**
   * Takes a zip in, as the field {@code file} of a form or as the body; 422 with the same answer
   * where it was refused. A dry run only says what would be.
   */
  @PostMapping("/import")
  ResponseEntity<ImportReport> takeIn(
      Member member,
      @RequestParam(required = false) @Nullable MultipartFile file,
      @RequestParam(defaultValue = "false") boolean dryRun,
      HttpServletRequest request)
      throws IOException {
    try (InputStream sent = file == null ? request.getInputStream() : file.getInputStream()) {
      Path kept = received.keep(sent);
      try {
        ImportReport report = intake.takeIn(member, kept, dryRun, new ImportProgress());
        return ResponseEntity.status(report.good() || dryRun ? 200 : 422).body(report);
      } finally {
        Files.deleteIfExists(kept);
      }
    }
  }
}
