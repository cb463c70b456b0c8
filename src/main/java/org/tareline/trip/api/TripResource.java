package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.net.URI;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
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
import org.tareline.part.GearSystem;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.part.json.PackedSizeJson;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.Listed;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.trip.Amount;
import org.tareline.trip.BaseTargets;
import org.tareline.trip.Carrier;
import org.tareline.trip.Supply;
import org.tareline.trip.Trip;
import org.tareline.trip.TripLine;
import org.tareline.trip.Trips;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Trips, and what they weigh. */
@RestController
@RequestMapping("/api/v1/trips")
class TripResource {

  private static final int PAGE = 100;

  /**
   * A trip as it is sent.
   *
   * @param starts the first day, as {@code 2027-05-08}
   * @param targetBase what the base weight is to be at most; a bare number is in grams
   */
  @JsonIgnoreProperties("revision")
  record TripRequest(
      @Nullable String code,
      @Nullable String name,
      @Nullable String starts,
      @JsonDeserialize(using = TypedText.class) @Nullable String days,
      @JsonDeserialize(using = TypedText.class) @Nullable String coldestNight,
      @Nullable List<@Nullable CarrierRequest> carriers,
      @Nullable List<@Nullable LineRequest> lines,
      @JsonDeserialize(using = TypedText.class) @Nullable String targetBase,
      @Nullable String note) {

    Trips.Entry entry() {
      return new Trips.Entry(
          code,
          name,
          starts,
          days,
          coldestNight,
          carriers == null
              ? null
              : carriers.stream().map(carrier -> carrier == null ? null : carrier.entry()).toList(),
          lines == null
              ? null
              : lines.stream().map(line -> line == null ? null : line.entry()).toList(),
          targetBase,
          note);
    }
  }

  /**
   * Who carries a share, as it is sent. A bare number of body mass is in kilograms.
   *
   * @param packVolume what goes into the pack, such as 52 L
   * @param packLength the longest thing that goes in, such as 60 cm
   */
  record CarrierRequest(
      @Nullable String code,
      @Nullable String name,
      @JsonDeserialize(using = TypedText.class) @Nullable String bodyMass,
      @JsonDeserialize(using = TypedText.class) @Nullable String packVolume,
      @JsonDeserialize(using = TypedText.class) @Nullable String packLength) {

    Trips.CarrierEntry entry() {
      return new Trips.CarrierEntry(
          code, name, bodyMass, new PackedSize.Entry(packVolume, packLength));
    }
  }

  /**
   * A line as it is sent: one of a part, a rig and an item.
   *
   * @param id of the line it was; may be left out
   * @param taken by the number of the day before leaving on which it is added
   * @param used by the number of the day
   */
  record LineRequest(
      @Nullable String id,
      @Nullable String part,
      @Nullable String rig,
      @Nullable ItemRequest item,
      @JsonDeserialize(using = TypedText.class) @Nullable String quantity,
      @Nullable String carry,
      @Nullable String place,
      @Nullable String carrier,
      @Nullable String system,
      @Nullable List<@Nullable String> leftAtHome,
      @Nullable List<@Nullable StandInJson> standsInFor,
      @JsonDeserialize(contentUsing = TypedText.class)
          @Nullable Map<String, @Nullable String> taken,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable Map<String, @Nullable String> used,
      @JsonDeserialize(using = TypedText.class) @Nullable String perDay,
      @JsonDeserialize(using = TypedText.class) @Nullable String density) {

    Trips.LineEntry entry() {
      return new Trips.LineEntry(
          id,
          part,
          rig,
          null,
          item == null ? null : item.entry(),
          quantity,
          carry,
          place,
          carrier,
          system,
          leftAtHome,
          standsInFor == null
              ? null
              : standsInFor.stream().map(place -> place == null ? null : place.entry()).toList(),
          new Trips.SupplyEntry(taken, used, perDay, density));
    }
  }

  /**
   * A free item as it is sent. A bare number is in grams. How it is used up may be said here or of
   * its line.
   */
  record ItemRequest(
      @Nullable String name,
      @Nullable String system,
      @JsonDeserialize(using = TypedText.class) @Nullable String mass,
      @JsonDeserialize(contentUsing = TypedText.class)
          @Nullable Map<String, @Nullable String> taken,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable Map<String, @Nullable String> used,
      @JsonDeserialize(using = TypedText.class) @Nullable String perDay,
      @JsonDeserialize(using = TypedText.class) @Nullable String density) {

    Trips.ItemEntry entry() {
      return new Trips.ItemEntry(
          name, system, mass, new Trips.SupplyEntry(taken, used, perDay, density));
    }
  }

  /** A part of a rig of the trip, by their codes. */
  record StandInJson(@Nullable String rig, @Nullable String part) {

    Trips.StandInEntry entry() {
      return new Trips.StandInEntry(rig, part);
    }
  }

  @JsonInclude(JsonInclude.Include.NON_NULL)
  record TripJson(
      String code,
      String name,
      @Nullable String starts,
      @Nullable Integer days,
      @Nullable TypedQuantityJson coldestNight,
      @Nullable TypedQuantityJson targetBase,
      @Nullable String note,
      int revision,
      @Nullable List<CarrierJson> carriers,
      List<LineJson> lines) {

    static TripJson of(Trip trip, Map<UUID, Trips.Carried> carried) {
      return new TripJson(
          trip.code(),
          trip.name(),
          trip.starts().map(Object::toString).orElse(null),
          trip.days().orElse(null),
          trip.coldestNight().map(night -> TypedQuantityJson.of(night, night.text())).orElse(null),
          trip.targetBase().map(TripResource::amount).orElse(null),
          trip.note().orElse(null),
          trip.revision(),
          orNull(trip.carriers().stream().map(CarrierJson::of).toList()),
          trip.lines().stream().map(line -> LineJson.of(line, carried.get(line.uuid()))).toList());
    }
  }

  private static <T> @Nullable List<T> orNull(List<T> list) {
    return list.isEmpty() ? null : list;
  }

  /** Who carries a share of a trip. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record CarrierJson(
      String code,
      String name,
      @Nullable TypedQuantityJson bodyMass,
      @Nullable TypedQuantityJson packVolume,
      @Nullable TypedQuantityJson packLength) {

    static CarrierJson of(Carrier carrier) {
      return new CarrierJson(
          carrier.code(),
          carrier.name(),
          bodyMassJson(carrier.body().orElse(null)),
          PackedSizeJson.volume(carrier.pack()),
          PackedSizeJson.length(carrier.pack()));
    }
  }

  static @Nullable TypedQuantityJson bodyMassJson(@Nullable Amount body) {
    return body == null ? null : TypedQuantityJson.of(body.mass(), body.typed(), Unit.KILOGRAM);
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
      @Nullable String place,
      @Nullable String carrier,
      @Nullable String system,
      @Nullable List<String> leftAtHome,
      @Nullable List<StandInJson> standsInFor,
      @Nullable Map<Integer, TypedQuantityJson> taken,
      @Nullable Map<Integer, TypedQuantityJson> used,
      @Nullable TypedQuantityJson perDay,
      @Nullable TypedQuantityJson density) {

    static LineJson of(TripLine line, Trips.@Nullable Carried carried) {
      Supply supply = line.supply();
      return new LineJson(
          line.uuid().toString(),
          carried == null || carried.part() == null ? null : carried.part().code(),
          carried == null || carried.rig() == null ? null : carried.rig().code(),
          line.item().map(ItemJson::of).orElse(null),
          line.quantity(),
          line.carry().word(),
          line.place().orElse(null),
          line.carrier().orElse(null),
          line.system().map(GearSystem::word).orElse(null),
          carried == null ? null : orNull(carried.leftAtHome().stream().map(Part::code).toList()),
          carried == null
              ? null
              : orNull(
                  carried.standsInFor().stream()
                      .map(place -> new StandInJson(place.rig().code(), place.part().code()))
                      .toList()),
          byDay(supply.taken()),
          byDay(supply.used()),
          supply.perDay() == null ? null : amount(supply.perDay()),
          supply.densityTyped() == null
              ? null
              : TypedQuantityJson.of(Amount.density(supply.densityTyped()), supply.densityTyped()));
    }

    private static @Nullable Map<Integer, TypedQuantityJson> byDay(
        SortedMap<Integer, Amount> amounts) {
      Map<Integer, TypedQuantityJson> byDay = new LinkedHashMap<>();
      amounts.forEach((day, amount) -> byDay.put(day, amount(amount)));
      return byDay.isEmpty() ? null : byDay;
    }
  }

  /** As typed: a mass, or the volume of what has a known mass per volume. */
  private static TypedQuantityJson amount(Amount amount) {
    Quantity read = Amount.read(amount.typed());
    return read.kind() == Kind.VOLUME
        ? TypedQuantityJson.of(read, amount.typed())
        : TypedQuantityJson.of(amount.mass(), amount.typed(), Unit.GRAM);
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
          item.mass() == null || item.massTyped() == null
              ? null
              : amount(new Amount(item.mass(), item.massTyped())));
    }
  }

  private final Trips trips;
  private final BaseTargets targets;

  TripResource(Trips trips, BaseTargets targets) {
    this.trips = trips;
    this.targets = targets;
  }

  /** Trips by code. */
  @GetMapping
  Listed<TripJson> all(Member member, @RequestParam(defaultValue = "") String after) {
    List<Trip> found = trips.after(member, after, PAGE + 1);
    List<Trip> page = found.subList(0, Math.min(found.size(), PAGE));
    Map<UUID, Trips.Carried> carried = trips.carried(member, page);
    return new Listed<>(
        page.stream().map(trip -> TripJson.of(trip, carried)).toList(),
        found.size() > PAGE
            ? UriComponentsBuilder.fromPath("/api/v1/trips")
                .queryParam("after", "{after}")
                .encode()
                .build(page.get(PAGE - 1).code())
                .toString()
            : null);
  }

  @GetMapping("/{code}")
  ResponseEntity<TripJson> one(Member member, @PathVariable String code) {
    return answer(member, trips.get(member, code), ResponseEntity.ok());
  }

  @PostMapping
  ResponseEntity<TripJson> add(Member member, @RequestBody TripRequest request) {
    return added(member, trips.add(member, request.entry()));
  }

  private ResponseEntity<TripJson> added(Member member, Trip trip) {
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

  /**
   * A trip made after an earlier one, as it is sent.
   *
   * @param name that of the earlier one when left out
   * @param starts the first day; not known when left out
   */
  record CopyRequest(@Nullable String code, @Nullable String name, @Nullable String starts) {}

  @PostMapping("/{code}/copies")
  ResponseEntity<TripJson> copy(
      Member member, @PathVariable String code, @RequestBody CopyRequest request) {
    return added(
        member, trips.copy(member, code, request.code(), request.name(), request.starts()));
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
    Unit asked = AnswerUnit.ofMass(unit);
    Trip trip = trips.get(member, code);
    Trips.Weighed weighed = trips.weighed(member, trip);
    return WeightsJson.of(
        weighed, targets.of(member, trip, weighed).orElse(null), member.massStyle(), asked);
  }
}
