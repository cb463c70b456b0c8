package org.tareline.trip.web;

import com.fasterxml.jackson.annotation.JsonInclude;
import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseBody;
import org.tareline.ledger.Member;
import org.tareline.site.Codes;
import org.tareline.site.Moments;
import org.tareline.site.QrCode;
import org.tareline.site.Refusal;
import org.tareline.site.ServedAt;
import org.tareline.trip.Checklist;
import org.tareline.trip.Checks;
import org.tareline.trip.Trip;
import org.tareline.trip.Trips;

/**
 * The packing list of a trip, to be checked off: by a form without scripts, and by what the page's
 * script asks for and sends, over and over.
 */
@Controller
class PackingController {

  /**
   * How to open the list on a telephone.
   *
   * @param address of the list, as it is in the code
   * @param hereAlone whether that leads nowhere but on this machine
   * @param secure whether it is served by TLS
   */
  record PhonePage(
      String code, String name, String address, boolean hereAlone, boolean secure, QrCode qr) {}

  /** What the script sends. */
  record Sent(@Nullable String sentAt, @Nullable List<Checks.@Nullable CheckEntry> checks) {}

  /**
   * How far a thing is.
   *
   * @param by who checked it, where that was somebody else
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record State(String state, @Nullable String by) {}

  /**
   * What became of a check that does not count.
   *
   * @param words as a sentence
   */
  record Told(String key, String words) {}

  /**
   * How far everything is.
   *
   * @param seen stands for all that this says: who asks again with it hears nothing new
   * @param token against forged requests; that of a page kept for long is of a session that is over
   * @param things by their ids; null where nothing is new
   * @param told of the checks sent
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record News(
      String seen, String token, @Nullable Map<String, State> things, @Nullable List<Told> told) {}

  private final Trips trips;
  private final Checks checks;
  private final Moments moments;
  private final Clock clock;

  PackingController(Trips trips, Checks checks, Moments moments, Clock clock) {
    this.trips = trips;
    this.checks = checks;
    this.moments = moments;
    this.clock = clock;
  }

  /**
   * The page.
   *
   * @param by {@code bag} groups by bag or pocket, anything else by system
   * @param show {@code left} leaves out what is packed
   */
  @GetMapping("/trips/{code}/packing-list")
  Object page(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String by,
      @RequestParam(required = false) @Nullable String show,
      Model model) {
    Trip trip = trips.get(member, code);
    if (!Codes.key(trip.code()).equals(Codes.key(code)) && !member.guest()) {
      return ResponseEntity.status(HttpStatus.SEE_OTHER)
          .location(PackingListPage.address(trip.code(), "bag".equals(by), "left".equals(show)))
          .build();
    }
    model.addAttribute(
        "page",
        PackingListPage.of(
            checks.of(member, trip),
            member,
            moments.day(clock.instant()),
            "bag".equals(by),
            "left".equals(show)));
    return "trip/packing-list";
  }

  /** The list as a file, a line for each thing, in the order of the trip. */
  @GetMapping("/trips/{code}/packing-list.csv")
  ResponseEntity<byte[]> file(Member member, @PathVariable String code) {
    Trip trip = trips.get(member, code);
    return PackingListPage.csv(checks.of(member, trip))
        .asFile("packing list " + trip.code() + ".csv");
  }

  /** How to open the list on a telephone. */
  @GetMapping("/trips/{code}/packing-list/phone")
  String phone(Member member, @PathVariable String code, HttpServletRequest request, Model model) {
    Trip trip = trips.get(member, code);
    ServedAt servedAt = ServedAt.of(request);
    String address =
        servedAt.address() + PackingListPage.address(trip.code(), false, false).getRawPath();
    model.addAttribute(
        "page",
        new PhonePage(
            trip.code(),
            trip.name(),
            address,
            servedAt.hereAlone(),
            request.isSecure(),
            QrCode.of(address)));
    return "trip/phone";
  }

  /**
   * Checks one thing off without scripts.
   *
   * @param check the line, the part where the line carries a rig, and the state, with bars between
   */
  @PostMapping("/trips/{code}/packing-list")
  ResponseEntity<Void> check(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String by,
      @RequestParam(required = false) @Nullable String show,
      @RequestParam String check) {
    String[] parts = check.split("\\|", 3);
    if (parts.length < 3) {
      throw Refusal.badInput("check", "Press the button of a thing on the packing list.");
    }
    checks.take(
        member,
        code,
        new Checks.Entry(
            null, List.of(new Checks.CheckEntry(parts[0], parts[1], parts[2], null, null))));
    return ResponseEntity.status(HttpStatus.SEE_OTHER)
        .location(PackingListPage.address(code, "bag".equals(by), "left".equals(show)))
        .build();
  }

  /**
   * How far everything is.
   *
   * @param owner whose page asks: somebody else may have signed in beside it
   * @param seen what the last answer said of itself
   */
  @GetMapping("/trips/{code}/packing-list/checks")
  @ResponseBody
  ResponseEntity<News> news(
      Member member,
      @PathVariable String code,
      @RequestParam String owner,
      @RequestParam(required = false) @Nullable String seen,
      CsrfToken token) {
    if (!owner.equals(PackingListPage.owner(member))) {
      return ResponseEntity.status(HttpStatus.CONFLICT).build();
    }
    Trip trip = trips.get(member, code);
    String now = PackingListPage.seen(trip, checks.count(member, trip));
    return ResponseEntity.ok(
        now.equals(seen)
            ? new News(now, token.getToken(), null, null)
            : news(member, checks.of(member, trip), token, null));
  }

  @PostMapping("/trips/{code}/packing-list/checks")
  @ResponseBody
  ResponseEntity<Object> take(
      Member member,
      @PathVariable String code,
      @RequestParam String owner,
      @RequestBody Sent sent,
      CsrfToken token) {
    if (!owner.equals(PackingListPage.owner(member))) {
      return ResponseEntity.status(HttpStatus.CONFLICT).build();
    }
    try {
      Checks.Done done = checks.take(member, code, new Checks.Entry(sent.sentAt(), sent.checks()));
      // Who checks a thing and takes that back knows which of the two counts.
      Set<String> keys =
          done.outcomes().stream().map(Checks.Outcome::key).collect(Collectors.toSet());
      return ResponseEntity.ok(
          news(
              member,
              done.checklist(),
              token,
              done.outcomes().stream()
                  .filter(outcome -> outcome.by() == null || !keys.contains(outcome.by().key()))
                  .filter(outcome -> outcome.words() != null)
                  .map(outcome -> new Told(outcome.key(), String.valueOf(outcome.words())))
                  .toList()));
    } catch (Refusal refusal) {
      return ResponseEntity.unprocessableContent().body(refusal.faults());
    }
  }

  private static News news(
      Member member, Checklist list, CsrfToken token, @Nullable List<Told> told) {
    Map<String, State> things = new LinkedHashMap<>();
    PackingListPage.things(list, member)
        .forEach(thing -> things.put(thing.id(), new State(thing.state().word(), thing.by())));
    return new News(
        PackingListPage.seen(list.trip(), list.checks()), token.getToken(), things, told);
  }
}
