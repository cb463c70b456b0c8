package org.tareline.exchange.web;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import org.tareline.exchange.BadRow;
import org.tareline.exchange.ImportJobs;
import org.tareline.exchange.ImportJobs.Job;
import org.tareline.exchange.ImportJobs.Stage;
import org.tareline.exchange.ImportReport;
import org.tareline.exchange.LedgerExport;
import org.tareline.exchange.ReceivedFile;
import org.tareline.ledger.Accounts;
import org.tareline.ledger.Member;
import org.tareline.ledger.MemberRole;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** A ledger out and in again, as pages. */
@Controller
class ExchangeController {

  /** The first page. */
  record Page(boolean owner, boolean editor, boolean first, String limit) {}

  /** What becomes of the rows of a file. */
  record FileRow(String file, String added, String changed, String unchanged, String refused) {}

  /**
   * The page of one import.
   *
   * @param running how far it has come, as a sentence; null where it does not run
   * @param toTake whether it waits for somebody to say so
   * @param verdict what it would do, or did, as a sentence
   * @param more how many problems are not shown; null where all are
   */
  record ImportPage(
      String id,
      String name,
      @Nullable String running,
      long rows,
      long rowsInAll,
      boolean toTake,
      boolean refused,
      String verdict,
      List<FileRow> files,
      List<BadRow> problems,
      @Nullable String more) {

    static ImportPage of(Job job) {
      ImportReport report = job.report();
      Stage stage = job.stage();
      boolean runs = stage == Stage.TRYING || stage == Stage.TAKING_IN;
      boolean good = report != null && report.good();
      return new ImportPage(
          job.id().toString(),
          job.name(),
          runs ? running(job) : null,
          job.rows(),
          job.rowsInAll(),
          report != null && good && stage == Stage.TRIED && added(report) + changed(report) > 0,
          !runs && !good,
          verdict(stage, report),
          report == null
              ? List.of()
              : report.tables().stream()
                  .filter(table -> table.rows() > 0)
                  .map(
                      table ->
                          new FileRow(
                              table.file(),
                              number(table.added()),
                              number(table.changed()),
                              number(table.unchanged()),
                              number(table.refused())))
                  .toList(),
          report == null ? List.of() : report.problems(),
          report == null || report.total() == report.problems().size()
              ? null
              : "And " + number(report.total() - report.problems().size()) + " more like these.");
    }

    private static String running(Job job) {
      return number(job.rows())
          + (job.rowsInAll() > 0 ? " of " + number(job.rowsInAll()) : "")
          + " rows read"
          + (job.file().isEmpty() ? "" : ", now " + job.file());
    }

    private static String verdict(Stage stage, @Nullable ImportReport report) {
      if (stage == Stage.BROKEN) {
        return "Something broke on our side. Nothing was written.";
      }
      if (stage == Stage.ENDED) {
        return "The server that was at it stopped. Nothing was written: take the file in again.";
      }
      if (report == null) {
        return "";
      }
      if (!report.good()) {
        return (report.total() == 1 ? "One thing stands" : number(report.total()) + " things stand")
            + " in the way. Nothing was written.";
      }
      int added = added(report);
      int changed = changed(report);
      if (added + changed == 0) {
        return "The ledger has all of this already.";
      }
      return (report.dryRun() ? "This would add " : "Added ")
          + number(added)
          + (added == 1 ? " row" : " rows")
          + (changed == 0
              ? "."
              : (report.dryRun() ? " and change " : " and changed ") + number(changed) + ".");
    }

    private static int added(ImportReport report) {
      return report.tables().stream().mapToInt(ImportReport.OfTable::added).sum();
    }

    private static int changed(ImportReport report) {
      return report.tables().stream().mapToInt(ImportReport.OfTable::changed).sum();
    }

    private static String number(long rows) {
      return String.format(Locale.ROOT, "%,d", rows).replace(',', '\u00a0');
    }
  }

  private final LedgerExport export;
  private final ImportJobs jobs;
  private final ReceivedFile received;
  private final Accounts accounts;

  ExchangeController(
      LedgerExport export, ImportJobs jobs, ReceivedFile received, Accounts accounts) {
    this.export = export;
    this.jobs = jobs;
    this.received = received;
    this.accounts = accounts;
  }

  @GetMapping("/exchange")
  String exchange(Member member, Model model) {
    model.addAttribute(
        "page",
        new Page(
            member.role() == MemberRole.OWNER,
            member.mayChange(),
            accounts.madeFirst(member),
            received.words()));
    return "exchange/exchange";
  }

  @GetMapping("/exchange/ledger.zip")
  void export(Member member, HttpServletResponse response) throws IOException {
    response.setContentType("application/zip");
    response.setHeader(
        HttpHeaders.CONTENT_DISPOSITION,
        ContentDisposition.attachment()
            .filename(export.fileName(), StandardCharsets.UTF_8)
            .build()
            .toString());
    export.write(member, response.getOutputStream());
  }

  @PostMapping("/exchange/import")
  Object begin(
      Member member, @RequestParam(required = false) @Nullable MultipartFile file, Model model)
      throws IOException {
    if (file == null || file.isEmpty()) {
      model.addAttribute(
          "faults", List.of(new Refusal.Fault("file", "Choose the zip of a ledger.")));
      return exchange(member, model);
    }
    try (InputStream sent = file.getInputStream()) {
      String name =
          Objects.requireNonNullElse(file.getOriginalFilename(), "").replaceAll("\\p{Cntrl}", "");
      Path kept = received.keep(sent);
      try {
        return SeeOther.page(
            "/exchange/import/{id}", jobs.begin(member, kept, Faults.shortened(name)));
      } finally {
        Files.deleteIfExists(kept);
      }
    } catch (Refusal tooLarge) {
      model.addAttribute("faults", tooLarge.faults());
      return exchange(member, model);
    }
  }

  @GetMapping("/exchange/import/{id}")
  String follow(Member member, @PathVariable String id, Model model) {
    model.addAttribute("page", ImportPage.of(job(member, id)));
    return "exchange/import";
  }

  @PostMapping("/exchange/import/{id}")
  Object take(Member member, @PathVariable String id) {
    Job job = job(member, id);
    jobs.take(member, job.id());
    return SeeOther.page("/exchange/import/{id}", job.id());
  }

  private Job job(Member member, String id) {
    try {
      return jobs.find(member, UUID.fromString(id)).orElseThrow(() -> new NotThere("import"));
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("import");
    }
  }
}
