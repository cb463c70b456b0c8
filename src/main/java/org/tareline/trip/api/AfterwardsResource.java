package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.site.RevisionTag;
import org.tareline.trip.Afterwards;

/** What came of the things of a trip. */
@RestController
@RequestMapping("/api/v1/trips/{code}/afterwards")
class AfterwardsResource {

  /**
   * What came of a trip, as it is sent: in place of all that was said before.
   *
   * @param missed that was not on the trip: parts by code, other things by name
   */
  @JsonIgnoreProperties("trip")
  record AfterwardsRequest(
      @Nullable List<@Nullable ThingRequest> things, @Nullable List<@Nullable String> missed) {

    Afterwards.Entry entry() {
      return new Afterwards.Entry(
          things == null
              ? null
              : things.stream().map(thing -> thing == null ? null : thing.entry()).toList(),
          missed);
    }
  }

  /**
   * What came of a thing, as it is sent.
   *
   * @param part of the rig that the line carries; all of it when left out
   * @param outcome used, not used or missed; nothing is said when left out
   */
  @JsonIgnoreProperties("name")
  record ThingRequest(@Nullable String line, @Nullable String part, @Nullable String outcome) {

    Afterwards.ThingEntry entry() {
      return new Afterwards.ThingEntry(line, part, outcome);
    }
  }

  record AfterwardsJson(String trip, List<ThingJson> things, List<String> missed) {

    static AfterwardsJson of(Afterwards.Found found) {
      return new AfterwardsJson(
          found.trip().code(),
          found.things().stream().map(ThingJson::of).toList(),
          found.missed().stream()
              .map(missed -> missed.code() == null ? missed.name() : missed.code())
              .toList());
    }
  }

  /**
   * What came of a thing.
   *
   * @param part left out of a free item
   * @param outcome left out where nothing was said
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ThingJson(String line, @Nullable String part, String name, @Nullable String outcome) {

    static ThingJson of(Afterwards.Thing thing) {
      return new ThingJson(
          thing.thing().line().id(),
          thing.thing().code(),
          thing.thing().piece().name(),
          thing.outcome());
    }
  }

  private final Afterwards afterwards;

  AfterwardsResource(Afterwards afterwards) {
    this.afterwards = afterwards;
  }

  @GetMapping
  ResponseEntity<AfterwardsJson> all(Member member, @PathVariable String code) {
    Afterwards.Found found = afterwards.of(member, code);
    return ResponseEntity.ok()
        .header(HttpHeaders.ETAG, RevisionTag.of(found.trip().afterwardsRevision()))
        .body(AfterwardsJson.of(found));
  }

  @PutMapping
  ResponseEntity<AfterwardsJson> write(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody AfterwardsRequest request) {
    afterwards.write(member, code, request.entry(), RevisionTag.expected(ifMatch));
    return all(member, code);
  }
}
