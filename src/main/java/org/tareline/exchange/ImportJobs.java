package org.tareline.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Service;
import org.tareline.ledger.Member;

/**
 * Imports that pages follow: tried first, and done when somebody says so. They are in the memory of
 * one server, one after another, and forgotten an hour after they were begun.
 */
@Service
public class ImportJobs {

  private static final Logger LOG = LoggerFactory.getLogger(ImportJobs.class);
  private static final Duration KEPT = Duration.ofHours(1);

  /** How far it has come. */
  public enum Stage {
    TRYING,
    /** Tried; what it would do is known. */
    TRIED,
    TAKING_IN,
    DONE,
    /** The server broke; nothing was written. */
    BROKEN
  }

  /** An import of one member's. */
  public static final class Job {

    private final UUID id = UUID.randomUUID();
    private final long ledger;
    private final long account;
    private final Path zip;
    private final String name;
    private final Instant begun;
    private volatile ImportProgress progress = new ImportProgress();
    private volatile Stage stage = Stage.TRYING;
    private volatile @Nullable ImportReport report;

    Job(Member member, Path zip, String name, Instant begun) {
      this.ledger = member.ledgerId();
      this.account = member.accountId();
      this.zip = zip;
      this.name = name;
      this.begun = begun;
    }

    public UUID id() {
      return id;
    }

    /** What the file was called where it came from. */
    public String name() {
      return name;
    }

    public Stage stage() {
      return stage;
    }

    public ImportProgress progress() {
      return progress;
    }

    /** What it would do, or did; null while it runs. */
    public @Nullable ImportReport report() {
      return report;
    }

    private boolean isOf(Member member) {
      return ledger == member.ledgerId() && account == member.accountId();
    }

    private boolean runs() {
      return stage == Stage.TRYING || stage == Stage.TAKING_IN;
    }
  }

  private final LedgerImport imports;
  private final Clock clock;
  private final Map<UUID, Job> jobs = new ConcurrentHashMap<>();
  private final ExecutorService oneAfterAnother =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "import");
            thread.setDaemon(true);
            return thread;
          });

  ImportJobs(LedgerImport imports, Clock clock) {
    this.imports = imports;
    this.clock = clock;
  }

  /**
   * Begins to try a zip; an earlier one of the member's that does not run is forgotten.
   *
   * @param zip is deleted when it is no longer wanted
   */
  public Job begin(Member member, Path zip, String name) {
    Instant now = clock.instant();
    for (Job job : jobs.values()) {
      if (!job.runs() && (job.isOf(member) || job.begun.plus(KEPT).isBefore(now))) {
        forget(job);
      }
    }
    Job job = new Job(member, zip, name, now);
    jobs.put(job.id, job);
    run(member, job, true);
    return job;
  }

  /** One of the member's in the ledger. */
  public Optional<Job> find(Member member, UUID id) {
    return Optional.ofNullable(jobs.get(id)).filter(job -> job.isOf(member));
  }

  /** Does what was tried; nothing where there is a problem, or it was done. */
  public void take(Member member, Job job) {
    synchronized (job) {
      ImportReport tried = job.report;
      if (job.stage != Stage.TRIED || tried == null || !tried.good()) {
        return;
      }
      job.stage = Stage.TAKING_IN;
    }
    run(member, job, false);
  }

  private void run(Member member, Job job, boolean dryRun) {
    job.report = null;
    job.progress = new ImportProgress();
    oneAfterAnother.execute(
        () -> {
          try {
            job.report = imports.takeIn(member, job.zip, dryRun, job.progress);
            job.stage = dryRun ? Stage.TRIED : Stage.DONE;
          } catch (RuntimeException broken) {
            LOG.error("An import broke, and nothing of it was written", broken);
            job.stage = Stage.BROKEN;
          }
        });
  }

  private void forget(Job job) {
    jobs.remove(job.id);
    try {
      Files.deleteIfExists(job.zip);
    } catch (IOException kept) {
      throw new UncheckedIOException(kept);
    }
  }
}
