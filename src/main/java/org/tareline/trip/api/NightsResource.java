package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.part.Comfort;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.trip.Nights;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;
import org.tareline.units.Quantity;

/** What a trip takes against the cold, held against its coldest night. */
@RestController
@RequestMapping("/api/v1/trips/{code}/nights")
class NightsResource {

  /**
   * The nights of a trip.
   *
   * @param coldestNight null where nobody has said
   * @param notes what to know of all of it
   */
  record NightsJson(
      String trip,
      @Nullable TypedQuantityJson coldestNight,
      List<CarrierJson> carriers,
      List<String> notes) {

    static NightsJson of(Trip trip, Nights nights) {
      return new NightsJson(
          trip.code(),
          stated(nights.coldest()),
          nights.carriers().stream().map(CarrierJson::of).toList(),
          Nights.NOTES);
    }
  }

  /**
   * What one person takes along.
   *
   * @param carrier left out where nobody is named on the trip
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record CarrierJson(@Nullable String carrier, List<SideJson> sides) {

    static CarrierJson of(Nights.OfCarrier of) {
      return new CarrierJson(
          of.carrier() == null ? null : of.carrier().code(),
          of.sides().stream().map(SideJson::of).toList());
    }
  }

  /**
   * What is taken for one side of the sleeper.
   *
   * @param insulates above, below or worn; null of what says neither
   * @param verdict too-little, stated-for-it or not-known
   */
  record SideJson(
      @Nullable String insulates, String verdict, String words, List<ThingJson> things) {

    static SideJson of(Nights.OfSide of) {
      return new SideJson(
          of.side() == null ? null : of.side().word(),
          of.verdict().word(),
          of.words(),
          of.things().stream().map(ThingJson::of).toList());
    }
  }

  /**
   * A thing against the cold.
   *
   * @param temperature null where it is not known
   * @param kind what the temperature says; null with it
   * @param margin by how many kelvin it is stated for a colder night than is expected; below zero
   *     where for a milder one; null where either is not known
   */
  record ThingJson(
      String part,
      String name,
      @Nullable TypedQuantityJson temperature,
      @Nullable String kind,
      @Nullable QuantityJson margin) {

    static ThingJson of(Nights.Thing of) {
      Comfort comfort = of.comfort();
      return new ThingJson(
          of.piece().code(),
          of.piece().name(),
          stated(comfort.temperature()),
          comfort.kind() == null ? null : comfort.kind().word(),
          of.margin() == null ? null : QuantityJson.of(of.margin(), "K"));
    }
  }

  private static @Nullable TypedQuantityJson stated(@Nullable Quantity typed) {
    return typed == null ? null : TypedQuantityJson.of(typed, typed.text());
  }

  private final Trips trips;

  NightsResource(Trips trips) {
    this.trips = trips;
  }

  @GetMapping
  NightsJson nights(Member member, @PathVariable String code) {
    Trip trip = trips.get(member, code);
    return NightsJson.of(trip, trips.nights(member, trip));
  }
}
