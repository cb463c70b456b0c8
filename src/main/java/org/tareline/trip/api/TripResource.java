package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.net.URI;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.rollup.Piece;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.Listed;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.trip.Total;
import org.tareline.trip.Trip;
import org.tareline.trip.TripLine;
import org.tareline.trip.Trips;
import org.tareline.trip.Weights;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Trips, and what they weigh. */
@RestController
@RequestMapping("/api/v1/trips")
class TripResource {

  /**
   * A trip as it is sent.
   *
   * @param starts the first day, as {@code 2027-05-08}
   */
  @JsonIgnoreProperties("revision")
  record TripRequest(
      @Nullable String code,
      @Nullable String name,
      @Nullable String starts,
      @JsonDeserialize(using = TypedText.class) @Nullable String days,
      @Nullable List<@Nullable LineRequest> lines,
      @Nullable String note) {

    Trips.Entry entry() {
      return new Trips.Entry(
          code,
          name,
          starts,
          days,
          lines == null
              ? null
              : lines.stream().map(line -> line == null ? null : line.entry()).toList(),
          note);
    }
  }

  /**
   * A line as it is sent: one of a part, a rig and an item.
   *
   * @param id of the line it was; may be left out
   */
  record LineRequest(
      @Nullable String id,
      @Nullable String part,
      @Nullable String rig,
      @Nullable ItemRequest item,
      @JsonDeserialize(using = TypedText.class) @Nullable String quantity,
      @Nullable String carry,
      @Nullable String place) {

    Trips.LineEntry entry() {
      return new Trips.LineEntry(
          id, part, rig, item == null ? null : item.entry(), quantity, carry, place);
    }
  }

  /** A free item as it is sent. A bare number is in grams. */
  record ItemRequest(
      @Nullable String name,
      @Nullable String system,
      @JsonDeserialize(using = TypedText.class) @Nullable String mass) {

    Trips.ItemEntry entry() {
      return new Trips.ItemEntry(name, system, mass);
    }
  }

  @JsonInclude(JsonInclude.Include.NON_NULL)
  record TripJson(
      String code,
      String name,
      @Nullable String starts,
      @Nullable Integer days,
      @Nullable String note,
      int revision,
      List<LineJson> lines) {

    static TripJson of(Trip trip, Map<UUID, Trips.Carried> carried) {
      return new TripJson(
          trip.code(),
          trip.name(),
          trip.starts().map(Object::toString).orElse(null),
          trip.days().orElse(null),
          trip.note().orElse(null),
          trip.revision(),
          trip.lines().stream().map(line -> LineJson.of(line, carried.get(line.uuid()))).toList());
    }
  }

  /**
   * A line of a trip.
   *
   * @param id survives edits of the line
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record LineJson(
      String id,
      @Nullable String part,
      @Nullable String rig,
      @Nullable ItemJson item,
      int quantity,
      String carry,
      @Nullable String place) {

    static LineJson of(TripLine line, Trips.@Nullable Carried carried) {
      return new LineJson(
          line.uuid().toString(),
          carried == null || carried.part() == null ? null : carried.part().code(),
          carried == null || carried.rig() == null ? null : carried.rig().code(),
          line.item().map(ItemJson::of).orElse(null),
          line.quantity(),
          line.carry().word(),
          line.place().orElse(null));
    }
  }

  /**
   * A free item.
   *
   * @param mass of one; left out where it is not known
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ItemJson(String name, String system, @Nullable TypedQuantityJson mass) {

    static ItemJson of(TripLine.Item item) {
      return new ItemJson(
          item.name(),
          item.system().word(),
          TypedQuantityJson.orNull(item.mass(), item.massTyped(), Unit.GRAM));
    }
  }

  /**
   * What a trip weighs.
   *
   * @param totalPack base and consumables
   * @param skinOut everything
   * @param warnings what is packed more often than it is owned, a sentence each
   */
  record WeightsJson(
      String trip,
      EstimateJson base,
      EstimateJson worn,
      EstimateJson consumables,
      EstimateJson totalPack,
      EstimateJson skinOut,
      List<SystemJson> bySystem,
      List<String> warnings) {

    static WeightsJson of(Trip trip, Weights weights, Unit unit) {
      return new WeightsJson(
          trip.code(),
          estimate(weights.base(), unit),
          estimate(weights.worn(), unit),
          estimate(weights.consumables(), unit),
          estimate(weights.totalPack(), unit),
          estimate(weights.skinOut(), unit),
          weights.bySystem().stream().map(system -> SystemJson.of(system, unit)).toList(),
          weights.shortages().stream().map(Weights.Shortage::words).toList());
    }
  }

  /** What of one system travels how; {@code total} is all of it. */
  record SystemJson(
      String system,
      EstimateJson base,
      EstimateJson worn,
      EstimateJson consumables,
      EstimateJson total) {

    static SystemJson of(Weights.OfSystem system, Unit unit) {
      return new SystemJson(
          system.system().word(),
          estimate(system.base(), unit),
          estimate(system.worn(), unit),
          estimate(system.consumables(), unit),
          estimate(system.total(), unit));
    }
  }

  private static EstimateJson estimate(Total total, Unit unit) {
    return EstimateJson.of(
        total.estimate(),
        total.basis(),
        total.unweighedLines(),
        total.missing().stream().map(Piece::code).toList(),
        unit);
  }

  private final Trips trips;

  TripResource(Trips trips) {
    this.trips = trips;
  }

  @GetMapping
  Listed<TripJson> all(Member member) {
    List<Trip> all = trips.all(member);
    Map<UUID, Trips.Carried> carried = trips.carried(member, all);
    return Listed.whole(all.stream().map(trip -> TripJson.of(trip, carried)).toList());
  }

  @GetMapping("/{code}")
  ResponseEntity<TripJson> one(Member member, @PathVariable String code) {
    return answer(member, trips.get(member, code), ResponseEntity.ok());
  }

  @PostMapping
  ResponseEntity<TripJson> add(Member member, @RequestBody TripRequest request) {
    Trip trip = trips.add(member, request.entry());
    URI address =
        UriComponentsBuilder.fromPath("/api/v1/trips")
            .pathSegment("{code}")
            .encode()
            .buildAndExpand(trip.code())
            .toUri();
    return answer(member, trip, ResponseEntity.created(address));
  }

  @PutMapping("/{code}")
  ResponseEntity<TripJson> change(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody TripRequest request) {
    Trip trip = trips.change(member, code, request.entry(), RevisionTag.expected(ifMatch));
    return answer(member, trip, ResponseEntity.ok());
  }

  private ResponseEntity<TripJson> answer(
      Member member, Trip trip, ResponseEntity.BodyBuilder answer) {
    return answer
        .header(HttpHeaders.ETAG, RevisionTag.of(trip.revision()))
        .body(TripJson.of(trip, trips.carried(member, List.of(trip))));
  }

  @GetMapping("/{code}/weights")
  WeightsJson weights(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String unit) {
    Trip trip = trips.get(member, code);
    return WeightsJson.of(trip, Weights.of(trips.packing(member, trip)), AnswerUnit.ofMass(unit));
  }
}
