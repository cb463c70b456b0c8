package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A copy of a ledger is brought up to a later state of it by that state's file. */
@FeatureTest
class LaterLedgerTest {

  @Test
  void whatever_was_changed_since_is_taken_in_whole_and_comes_out_to_the_last_byte(
      TestServer server, TestLedger copy) {
    TestLedger home = FullLedger.open(server);
    Parcel first = Parcel.of(home);
    first.putInto(copy).expect(200);

    changeEverything(home.api());
    Parcel later = Parcel.of(home);
    Set<String> same = new TreeSet<>();
    first
        .rows()
        .forEach(
            (file, text) -> {
              if (text.equals(later.files().get(file))) {
                same.add(file);
              }
            });
    // Which lines a scope leaves out, nobody can change by the API.
    assertThat(same).as("nothing was changed in").containsExactly("scope-lines.csv");
    Parcel.Reply tried = later.tryInto(copy).expect(200);
    assertThat(tried.json().path("problems")).isEmpty();
    later.putInto(copy).expect(200);

    Parcel now = Parcel.of(copy);
    later
        .rows()
        .forEach((file, text) -> assertThat(now.files().get(file)).as(file).isEqualTo(text));
    Parcel.Reply again = later.putInto(copy).expect(200);
    assertThat(again.inAll("added") + again.inAll("changed")).isZero();
    Parcel.Reply back = first.putInto(copy).expect(422);
    assertThat(back.json().toString()).contains("is no later one, and nothing is overwritten");
    assertThat(Parcel.of(copy).rows()).isEqualTo(now.rows());
  }

  @Test
  void what_came_of_a_trip_is_replaced_by_what_is_said_of_it_later(
      TestServer server, TestLedger copy) {
    TestLedger home = FullLedger.open(server);
    Parcel.of(home).putInto(copy).expect(200);
    JsonNode before = copy.api().get("/trips/UPLAND-SEP/afterwards").expect(200).json();
    home.api().put("/trips/UPLAND-SEP/afterwards", Map.of("missed", List.of("A lid"))).expect(200);

    Parcel.Reply done = Parcel.of(home).putInto(copy).expect(200);

    assertThat(done.of("trip-outcomes.csv", "added")).isEqualTo(1);
    assertThat(done.of("trips.csv", "changed")).isEqualTo(1);
    JsonNode after = copy.api().get("/trips/UPLAND-SEP/afterwards").expect(200).json();
    assertThat(after).isNotEqualTo(before);
    assertThat(after).isEqualTo(home.api().get("/trips/UPLAND-SEP/afterwards").expect(200).json());
  }

  private static void change(Api api, String path, Consumer<ObjectNode> how) {
    ObjectNode body = (ObjectNode) api.get(path).expect(200).json();
    how.accept(body);
    api.put(path, body.toString()).expect(200);
  }

  private static String idOf(Api api, String path, String body) {
    return api.post(path, body).expect(201).json().path("id").asString();
  }

  /** Something in every table, as far as it can be changed or added to. */
  private static void changeEverything(Api api) {
    api.put("/settings", "{\"designFactor\":\"6\",\"air\":{\"down\":\"5 %\"}}").expect(200);

    api.post(
            "/scales",
            "{\"code\":\"BENCH-2\",\"name\":\"A new scale\",\"readability\":\"0.1 g\",\"capacity\":\"2 kg\"}")
        .expect(201);
    String check =
        idOf(
            api,
            "/scales/BENCH/checks",
            "{\"weights\":[{\"nominal\":\"200\",\"class\":\"M1\",\"indication\":\"200.1\"}]}");
    api.post("/scales/BENCH/checks/{id}/void", "{\"reason\":\"again\"}", check).expect(200);

    change(api, "/materials/RIP-40", material -> material.put("note", "Found on the shelf"));
    change(api, "/materials/RIP-20", material -> material.put("code", "RIP-21"));
    api.post(
            "/materials/RIP-40/swatches",
            "{\"length\":\"300 mm\",\"width\":\"200 mm\",\"scale\":\"BENCH\",\"readings\":[\"2.6 g\"]}")
        .expect(201);
    String counted = idOf(api, "/materials/RIP-40/stock", "{\"counted\":\"7 m\"}");
    api.post("/materials/RIP-40/stock/{id}/void", "{\"reason\":\"mistyped\"}", counted).expect(200);
    api.post("/materials/RIP-40/stock", "{\"added\":\"2 m\"}").expect(201);

    change(
        api,
        "/parts/TRIAL-BODY",
        part -> {
          part.put("code", "BODY-OF-TRIAL");
          ObjectNode line = (ObjectNode) part.at("/buildSheet/lines/0");
          line.put("length", "3.1 m");
          ObjectNode hem = line.deepCopy();
          hem.remove("id");
          hem.put("name", "hem").put("length", "3 m").put("width", "3 cm");
          ((ArrayNode) part.at("/buildSheet/lines")).add(hem);
        });
    change(api, "/parts/TARP-4", part -> part.put("code", "TARP-FOUR"));
    change(api, "/parts/TARP-FOUR", part -> part.put("code", "TARP-4").put("note", "As before"));
    String lent = idOf(api, "/parts/PACK/events", "{\"kind\":\"washed\",\"note\":\"twice\"}");
    api.post("/parts/PACK/events/{id}/void", "{\"reason\":\"it was not\"}", lent).expect(200);
    api.post("/parts/PEG/events", "{\"kind\":\"made\",\"count\":2}").expect(201);
    api.post("/parts", "{\"code\":\"LATER\",\"name\":\"A later part\"}").expect(201);

    api.post("/scopes", "{\"code\":\"later\",\"name\":\"Later\",\"counts\":[\"body\"]}")
        .expect(201);

    change(
        api,
        "/rigs/BRIDGE-3-SUMMER",
        rig -> {
          rig.put("name", "The bridge, later");
          ((ArrayNode) rig.path("lines")).remove(rig.path("lines").size() - 1);
          ((ArrayNode) rig.path("lines")).addObject().put("part", "LATER").put("role", "other");
        });
    change(
        api,
        "/rigs/GATHERED-2-SUMMER/loads/set-up",
        hung -> {
          hung.put("lies", "81 kg").putArray("elements");
          ((ObjectNode) hung.at("/ends/0")).put("angle", "29 deg");
        });
    String record =
        api.get("/rigs/BRIDGE-3-SUMMER/set-ups").expect(200).json().at("/items/0/id").asString();
    change(
        api, "/rigs/BRIDGE-3-SUMMER/set-ups/" + record, hung -> hung.put("words", "a little flat"));
    api.post("/rigs/BRIDGE-3-SUMMER/set-ups", "{\"hungOn\":\"2027-05-01\",\"favourite\":true}")
        .expect(201);

    change(
        api,
        "/trips/MOOR-JUN",
        trip -> {
          ((ArrayNode) trip.path("carriers"))
              .addObject()
              .put("code", "me")
              .put("bodyMass", "71 kg");
          // What stays at home, what serves for something else, what is taken by days.
          for (int line : new int[] {8, 2, 0}) {
            ((ArrayNode) trip.path("lines")).remove(line);
          }
        });
    change(
        api,
        "/trips/UPLAND-SEP",
        trip -> ((ArrayNode) trip.path("lines")).addObject().put("part", "LATER"));
    JsonNode thing = api.get("/trips/UPLAND-SEP/afterwards").expect(200).json().at("/things/0");
    String line = thing.path("line").asString();
    String part = thing.path("part").asString();
    api.put(
            "/trips/UPLAND-SEP/afterwards",
            Map.of(
                "things",
                List.of(Map.of("line", line, "part", part, "outcome", "not used")),
                "missed",
                List.of("A lid")))
        .expect(200);
    api.post(
            "/trips/UPLAND-SEP/packing",
            Map.of("checks", List.of(Map.of("line", line, "state", "open", "key", "later"))))
        .expect(200);

    String weighing =
        idOf(
            api,
            "/weighings",
            "{\"part\":\"LATER\",\"scale\":\"BENCH\",\"before\":[\"10 g\"],\"readings\":[\"12 g\"],\"key\":\"later\"}");
    api.post("/weighings/{id}/void", "{\"reason\":\"mistyped\"}", weighing).expect(200);
  }
}
