package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.trip.Checklist;
import org.tareline.trip.Checks;
import org.tareline.trip.Packed;
import org.tareline.trip.Trips;

/** What is to be packed for a trip, and checking it off. */
@RestController
@RequestMapping("/api/v1/trips/{code}/packing")
class PackingResource {

  /**
   * Checks as they are sent.
   *
   * @param sentAt what the sender's clock shows now; taken to be right when left out
   */
  record ChecksRequest(@Nullable String sentAt, @Nullable List<@Nullable CheckRequest> checks) {

    Checks.Entry entry() {
      return new Checks.Entry(
          sentAt,
          checks == null
              ? null
              : checks.stream().map(check -> check == null ? null : check.entry()).toList());
    }
  }

  /**
   * A check as it is sent.
   *
   * @param line the id of a line of the trip
   * @param part code of one part of the rig that the line carries; all of it when left out
   * @param state open, to fetch or packed
   * @param at when it was made; now when left out
   * @param key the sender's own; the same again is harmless
   */
  record CheckRequest(
      @Nullable String line,
      @Nullable String part,
      @Nullable String state,
      @Nullable String at,
      @Nullable String key) {

    Checks.CheckEntry entry() {
      return new Checks.CheckEntry(line, part, state, at, key);
    }
  }

  /**
   * What is to be packed.
   *
   * @param open how many things are, and so on; together they are all
   * @param outcomes what became of the checks sent; left out where none were
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record PackingJson(
      String trip,
      int revision,
      long open,
      long toFetch,
      long packed,
      List<ThingJson> things,
      @Nullable List<OutcomeJson> outcomes) {

    static PackingJson of(Checklist list, @Nullable List<OutcomeJson> outcomes) {
      return new PackingJson(
          list.trip().code(),
          list.trip().revision(),
          list.count(Packed.OPEN),
          list.count(Packed.TO_FETCH),
          list.count(Packed.PACKED),
          list.things().stream().map(ThingJson::of).toList(),
          outcomes);
    }
  }

  /**
   * A thing to be packed.
   *
   * @param part left out of a free item
   * @param rig that the line carries and the part is in; left out where the line carries the part
   * @param checkedAt left out, as {@code checkedBy} is, where nobody has checked it
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ThingJson(
      String line,
      @Nullable String part,
      @Nullable String rig,
      String name,
      long quantity,
      String system,
      String carry,
      @Nullable String place,
      @Nullable String carrier,
      String state,
      @Nullable String checkedAt,
      @Nullable String checkedBy) {

    static ThingJson of(Checklist.Thing thing) {
      Checklist.Check newest = thing.newest();
      return new ThingJson(
          thing.line().id(),
          thing.code(),
          thing.rig() == null ? null : thing.rig().code(),
          thing.piece().name(),
          thing.quantity(),
          thing.system().word(),
          thing.line().carry().word(),
          thing.line().place(),
          thing.line().carrier(),
          thing.state().word(),
          newest == null ? null : newest.at().toString(),
          newest == null ? null : newest.by());
    }
  }

  /**
   * What became of a check.
   *
   * @param outcome counts, overtaken or off the trip
   * @param words as a sentence; left out where it counts
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record OutcomeJson(String key, String outcome, @Nullable String words) {

    static OutcomeJson of(Checks.Outcome outcome) {
      return new OutcomeJson(outcome.key(), outcome.fate().word(), outcome.words());
    }
  }

  private final Checks checks;
  private final Trips trips;

  PackingResource(Checks checks, Trips trips) {
    this.checks = checks;
    this.trips = trips;
  }

  @GetMapping
  PackingJson packing(Member member, @PathVariable String code) {
    return PackingJson.of(checks.of(member, trips.get(member, code)), null);
  }

  @PostMapping
  PackingJson check(Member member, @PathVariable String code, @RequestBody ChecksRequest request) {
    Checks.Done done = checks.take(member, code, request.entry());
    return PackingJson.of(done.checklist(), done.outcomes().stream().map(OutcomeJson::of).toList());
  }
}
