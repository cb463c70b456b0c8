package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.exchange.ImportJobs.Job;
import org.tareline.exchange.ImportJobs.Stage;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Patience;
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
    server
        .bean(TransactionOperations.class)
        .executeWithoutResult(
            transaction -> {
              lockTheLedger();
              CompletableFuture.runAsync(() -> there.take(ledger.member(), id)).join();
              // Its server may say in between that it is there after all.
              CompletableFuture.runAsync(
                      () ->
                          until(
                              () -> {
                                silent(id);
                                return stage(id) == Stage.ENDED;
                              }))
                  .join();
            });

    there.close();

    assertThat(stage(id)).isEqualTo(Stage.ENDED);
    assertThat(parts()).isZero();
    assertThat(pieces()).isZero();
  }

  @Test
  void a_server_that_is_stopped_ends_what_it_was_at() throws Exception {
    UUID[] id = new UUID[1];
    Thread closing = new Thread(there::close);
    server
        .bean(TransactionOperations.class)
        .executeWithoutResult(
            transaction -> {
              lockTheLedger();
              id[0] = CompletableFuture.supplyAsync(() -> begin(there)).join();
              closing.start();
              // It waits for the import, which it has told to end.
              until(() -> closing.getState() == Thread.State.TIMED_WAITING);
            });

    closing.join();

    assertThat(stage(id[0])).isEqualTo(Stage.ENDED);
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
              assertThat(stage(id)).isEqualTo(Stage.TAKING_IN);
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
    Patience.until(
        () -> {
          Stage stage = jobs.find(ledger.member(), id).orElseThrow().stage();
          return stage != Stage.TRYING && stage != Stage.TAKING_IN;
        });
    return jobs.find(ledger.member(), id).orElseThrow();
  }

  private Stage stage(UUID id) {
    return here.find(ledger.member(), id).orElseThrow().stage();
  }

  private static void until(Callable<Boolean> so) {
    try {
      Patience.until(so);
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
