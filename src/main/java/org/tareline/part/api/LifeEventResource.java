package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.part.LifeEvent;
import org.tareline.part.LifeEvents;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.NotThere;

/** What happened to parts. */
@RestController
@RequestMapping("/api/v1/parts/{code}/events")
class LifeEventResource {

  private static final int MOST = 500;

  /**
   * An event as it is sent.
   *
   * @param kind made, repaired, washed, modified, damaged, retired, lent or returned
   * @param date an ISO 8601 date, or date and time; now when left out
   * @param count how many were made, retired, lent or returned; 1 when left out. The first time
   *     that a part of which some are owned is said to be made, it is 0: those are the ones
   */
  record EventRequest(
      @Nullable String kind, @Nullable String date, @Nullable String count, @Nullable String note) {

    LifeEvents.Entry entry() {
      return new LifeEvents.Entry(kind, date, count, note);
    }
  }

  record VoidRequest(@Nullable String reason) {}

  /**
   * An event.
   *
   * @param count left out where it changes neither how many are owned nor how many are at hand
   * @param voidReason left out while it stands
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record EventJson(
      String id,
      String kind,
      String date,
      @Nullable Integer count,
      @Nullable String note,
      boolean voided,
      @Nullable String voidReason) {

    static EventJson of(LifeEvents.Logged logged) {
      LifeEvent event = logged.event();
      return new EventJson(
          event.uuid().toString(),
          event.kind().word(),
          event.happenedAt().toString(),
          event.kind().countsPieces() ? event.pieces() : null,
          event.note().orElse(null),
          logged.voidReason() != null,
          logged.voidReason());
    }
  }

  /**
   * An event, and how many of the part there are now.
   *
   * @param lent how many of those owned
   */
  record Outcome(
      @JsonUnwrapped EventJson event, String part, int owned, int lent, int atHand, int revision) {

    static Outcome of(LifeEvents.Outcome outcome) {
      return new Outcome(
          EventJson.of(outcome.logged()),
          outcome.part().code(),
          outcome.part().owned(),
          outcome.lent(),
          outcome.part().owned() - outcome.lent(),
          outcome.part().revision());
    }
  }

  /**
   * The events of a part, newest first.
   *
   * @param older true, or left out: there are older ones than these
   */
  record Events(
      List<EventJson> items,
      int owned,
      int lent,
      int atHand,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Boolean older) {}

  private final LifeEvents events;
  private final Parts parts;

  LifeEventResource(LifeEvents events, Parts parts) {
    this.events = events;
    this.parts = parts;
  }

  @GetMapping
  Events all(Member member, @PathVariable String code) {
    Part part = parts.get(member, code);
    List<LifeEvents.Logged> found = events.of(member, part, MOST + 1);
    int lent = events.lent(member, part);
    return new Events(
        found.stream().limit(MOST).map(EventJson::of).toList(),
        part.owned(),
        lent,
        part.owned() - lent,
        found.size() > MOST ? true : null);
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  Outcome log(Member member, @PathVariable String code, @RequestBody EventRequest request) {
    return Outcome.of(events.log(member, code, request.entry()));
  }

  @PostMapping("/{id}/void")
  Outcome strikeOut(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      @RequestBody VoidRequest request) {
    return Outcome.of(events.strikeOut(member, code, uuid(id), request.reason()));
  }

  private static UUID uuid(String id) {
    try {
      return UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("life event");
    }
  }
}
