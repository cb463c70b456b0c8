package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.exchange.ImportJobs.Job;
import org.tareline.exchange.ImportJobs.Stage;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.json.JsonMapper;

/** Imports on two servers with one database: one is the running one, the other stands beside it. */
@FeatureTest
class ImportJobsTest {

  private static final Parcel PART =
      new Parcel(
          Map.of(
              "parts.csv",
              "id,code,name,system,owned,revision\r\n3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b61,A,Thing,hang,1,1\r\n"));

  private TestServer server;
  private TestLedger ledger;
  private ImportJobs here;
  private ImportJobs there;

  @BeforeEach
  void meet(TestServer running, TestLedger empty) {
    server = running;
    ledger = empty;
    here = server.bean(ImportJobs.class);
    there =
        new ImportJobs(
            server.bean(LedgerImport.class),
            server.bean(JdbcTemplate.class),
            server.bean(TransactionOperations.class),
            server.bean(JsonMapper.class));
  }

  @AfterEach
  void stop() {
    there.close();
  }

  @Test
  void what_one_server_has_tried_another_takes_in_and_both_know_of_it() throws Exception {
    UUID id = begin(there);

    Job tried = settled(here, id);
    assertThat(tried.stage()).isEqualTo(Stage.TRIED);
    assertThat(tried.name()).isEqualTo("part.zip");
    assertThat(parts()).isZero();
    assertThat(pieces()).isEqualTo(1);

    here.take(ledger.member(), id);

    Job done = settled(there, id);
    assertThat(done.stage()).isEqualTo(Stage.DONE);
    assertThat(done.rows()).isEqualTo(1);
    assertThat(done.report()).isNotNull();
    assertThat(parts()).isEqualTo(1);
    assertThat(pieces()).as("the zip is not kept").isZero();
    there.take(ledger.member(), id);
    assertThat(there.find(ledger.member(), id).orElseThrow().stage()).isEqualTo(Stage.DONE);
  }

  @Test
  void an_import_whose_server_is_gone_has_ended_and_is_no_longer_written_if_it_was_only_slow()
      throws Exception {
    UUID id = begin(there);
    settled(here, id);
    CompletableFuture<Stage> seen = new CompletableFuture<>();
    server
        .bean(TransactionOperations.class)
        .executeWithoutResult(
            transaction -> {
              lockTheLedger();
              CompletableFuture.runAsync(() -> there.take(ledger.member(), id)).join();
              CompletableFuture.runAsync(
                  () -> {
                    silent(id);
                    seen.complete(here.find(ledger.member(), id).orElseThrow().stage());
                  });
              assertThat(seen.orTimeout(10, TimeUnit.SECONDS).join()).isEqualTo(Stage.ENDED);
            });

    there.close();

    assertThat(here.find(ledger.member(), id).orElseThrow().stage()).isEqualTo(Stage.ENDED);
    assertThat(parts()).isZero();
    assertThat(pieces()).isZero();
  }

  @Test
  void a_server_that_is_stopped_ends_what_it_was_at() throws Exception {
    UUID[] id = new UUID[1];
    CompletableFuture<Void> closed = new CompletableFuture<>();
    server
        .bean(TransactionOperations.class)
        .executeWithoutResult(
            transaction -> {
              lockTheLedger();
              id[0] = CompletableFuture.supplyAsync(() -> begin(there)).join();
              CompletableFuture.runAsync(there::close).thenRun(() -> closed.complete(null));
              sleep();
            });

    closed.orTimeout(30, TimeUnit.SECONDS).join();

    assertThat(here.find(ledger.member(), id[0]).orElseThrow().stage()).isEqualTo(Stage.ENDED);
    assertThat(parts()).isZero();
  }

  @Test
  void an_import_is_thrown_away_after_a_day_and_is_in_no_export() throws Exception {
    UUID id = begin(here);
    settled(here, id);
    assertThat(Parcel.of(ledger).files().keySet()).noneMatch(file -> file.contains("import"));
    server
        .database()
        .update(
            "update import_job set begun_at = begun_at - interval '25' hour where ledger_id = ? and uuid = ?",
            ledger.member().ledgerId(),
            id);

    there.sweep();

    assertThat(here.find(ledger.member(), id)).isEmpty();
    assertThat(pieces()).isZero();
  }

  @Test
  void how_far_it_is_and_that_it_is_alive_is_written_while_it_runs() throws Exception {
    UUID id = begin(there);
    settled(here, id);
    server
        .bean(TransactionOperations.class)
        .executeWithoutResult(
            transaction -> {
              lockTheLedger();
              CompletableFuture.runAsync(() -> there.take(ledger.member(), id)).join();
              CompletableFuture.runAsync(
                      () -> {
                        silent(id);
                        there.beat();
                      })
                  .join();
              assertThat(here.find(ledger.member(), id).orElseThrow().stage())
                  .isEqualTo(Stage.TAKING_IN);
            });
    assertThat(settled(here, id).stage()).isEqualTo(Stage.DONE);
  }

  /** As if nothing had been heard of its server for a while. */
  private void silent(UUID id) {
    assertThat(
            server
                .database()
                .update(
                    "update import_job set seen_at = seen_at - interval '3' minute where ledger_id = ? and uuid = ?",
                    ledger.member().ledgerId(),
                    id))
        .isEqualTo(1);
  }

  /** An import waits for it, so that it can be seen running. */
  private void lockTheLedger() {
    server
        .database()
        .queryForList(
            "select id from ledger where id = ? for "
                + (onPostgresql() ? "no key " : "")
                + "update",
            ledger.member().ledgerId());
  }

  private boolean onPostgresql() {
    return "postgresql".equals(System.getProperty("tareline.test.database"));
  }

  private UUID begin(ImportJobs jobs) {
    try {
      Path zip = Files.createTempFile("part", ".zip");
      try {
        Files.write(zip, PART.zip());
        return jobs.begin(ledger.member(), zip, "part.zip");
      } finally {
        Files.delete(zip);
      }
    } catch (IOException unwritable) {
      throw new AssertionError(unwritable);
    }
  }

  private Job settled(ImportJobs jobs, UUID id) throws InterruptedException {
    for (int tries = 0; tries < 300; tries++) {
      Job job = jobs.find(ledger.member(), id).orElseThrow();
      if (job.stage() != Stage.TRYING && job.stage() != Stage.TAKING_IN) {
        return job;
      }
      Thread.sleep(50);
    }
    throw new AssertionError("It runs and runs");
  }

  private static void sleep() {
    try {
      Thread.sleep(300);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  private long parts() {
    return count("part");
  }

  private long pieces() {
    return count("import_piece");
  }

  private long count(String table) {
    return server.count(
        "select count(*) from " + table + " where ledger_id = ?", ledger.member().ledgerId());
  }
}
