package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.scheduling.annotation.ScheduledAnnotationBeanPostProcessor;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.EmptyServerTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** A server with an account that was made first, and another. */
@EmptyServerTest
class BackupsPageTest {

  private static final String PAGE = "/exchange/backups";

  private static TestServer server;
  private static TestLedger first;
  private static TestLedger second;

  @BeforeAll
  static void start() {
    server = TestServer.startEmpty();
    // By itself it would make one a minute after its start.
    ScheduledAnnotationBeanPostProcessor schedule =
        server.bean(ScheduledAnnotationBeanPostProcessor.class);
    server
        .beans(BackupRoutine.class)
        .forEach(routine -> schedule.postProcessBeforeDestruction(routine, ""));
    assertThat(schedule.getScheduledTasks())
        .noneMatch(task -> task.toString().contains("backUpIfDue"));
    first = server.openLedger();
    second = server.openLedger();
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  private static Answer make() {
    Pages pages = first.pages();
    return pages.submit(pages.get(PAGE).expect(200), "form[action=" + PAGE + "]");
  }

  private static String main(Answer page) {
    return page.page().select("main").text();
  }

  @Test
  void another_ledgers_owner_and_a_token_are_refused_for_a_backup_holds_every_ledger() {
    assertThat(main(first.pages().get("/account"))).contains("Backups of this server");
    assertThat(main(second.pages().get("/account"))).doesNotContain("Backups of this server");
    second.pages().get(PAGE).expect(403);
    second.api().get("/backups").expect(403);
    Answer refused = second.api().post("/backups", Map.of()).expect(403);
    assertThat(refused.json().path("detail").asString()).contains("made first on this server");

    String token =
        first
            .api()
            .post("/tokens", Map.of("name", "a script"))
            .expect(201)
            .json()
            .path("token")
            .asString();
    Api script = server.api().with("Authorization", "Bearer " + token);
    script.get("/parts").expect(200);
    script.get("/backups").expect(403);
    script.post("/backups", Map.of()).expect(403);
  }

  @Test
  void one_is_made_listed_read_again_and_found_damaged_once_it_is() throws IOException {
    if (TestDatabase.onPostgresql()) {
      Answer page = first.pages().get(PAGE).expect(200);
      assertThat(main(page)).contains("PostgreSQL").contains("pg_dump").contains("pg_restore");
      assertThat(page.page().select("main form")).isEmpty();
      assertThat(first.api().get("/backups").json().path("database").asString())
          .isEqualTo("PostgreSQL");
      Answer refused = first.api().post("/backups", Map.of()).expect(409);
      assertThat(refused.json().path("detail").asString()).contains("its own tools");
      assertThat(first.api().get("/backups").json().path("items")).isEmpty();
      return;
    }
    Answer none = first.pages().get(PAGE).expect(200);
    assertThat(main(none))
        .contains("There is none yet")
        .contains("every 24 hours")
        .contains("due now")
        .contains("14 are kept")
        .contains("--restore=newest");

    Answer made = first.pages().follow(make().expect(303)).expect(200);

    Answer listed = first.api().get("/backups").expect(200);
    assertThat(listed.json().path("every").asString()).isEqualTo("PT24H");
    String name = listed.json().path("items").path(0).path("name").asString();
    Path backup = Path.of(listed.json().path("folder").asString()).resolve(name);
    assertThat(listed.json().path("items").path(0).path("bytes").asLong())
        .isEqualTo(Files.size(backup))
        .isPositive();
    assertThat(main(made))
        .contains(name + " was made and read back")
        .contains("the next is due on")
        .contains("--restore=" + name);
    assertThat(made.page().select("tbody tr")).hasSize(1);

    Pages pages = first.pages();
    Answer read = pages.follow(pages.submit(made, "form[action$=/read]").expect(303)).expect(200);
    assertThat(main(read)).contains(name + " was read to its end, and is good.");

    byte[] good = Files.readAllBytes(backup);
    byte[] bad = good.clone();
    for (int i = bad.length / 2; i < bad.length / 2 + 200; i++) {
      bad[i] ^= 0x5a;
    }
    Files.write(backup, bad);
    Answer damaged = pages.submit(read, "form[action$=/read]").expect(422);
    assertThat(damaged.page().select(".errors").text()).contains(name + " is not good:");
    assertThat(damaged.page().select("tbody").text()).contains("damaged");
    assertThat(first.api().get("/backups").json().path("items").path(0).path("damage").asString())
        .isNotEmpty();

    first.api().post("/backups/{name}/read", Map.of(), "tareline-20270101T000000Z.zip").expect(404);
    first.api().post("/backups/{name}/read", Map.of(), "..").expect(400);
    Files.delete(backup);
  }

  @Test
  void what_keeps_one_from_being_made_is_said_until_one_is_made() throws IOException {
    if (TestDatabase.onPostgresql()) {
      first.api().post("/backups", Map.of()).expect(409);
      // Nothing broke: there was nothing to do from here.
      assertThat(first.api().get("/backups").json().path("lastFailure").isNull()).isTrue();
      return;
    }
    Path folder = Path.of(first.api().get("/backups").json().path("folder").asString());
    Path aside = folder.resolveSibling(folder.getFileName() + "-aside");
    if (Files.exists(folder)) {
      Files.move(folder, aside);
    }
    Files.writeString(folder, "a file where the folder should be");

    Answer refused = make().expect(422);

    assertThat(refused.page().select(".errors").text())
        .contains("No backup could be made")
        .contains(folder.getFileName().toString());
    assertThat(main(first.pages().get(PAGE).expect(200)))
        .contains("The last one could not be made.");
    assertThat(first.api().get("/backups").json().path("lastFailure").path("detail").asString())
        .contains(folder.getFileName().toString());

    Files.delete(folder);
    first.api().post("/backups", Map.of()).expect(201);
    assertThat(main(first.pages().get(PAGE))).doesNotContain("could not be made");
    assertThat(first.api().get("/backups").json().path("lastFailure").isNull()).isTrue();
  }
}
