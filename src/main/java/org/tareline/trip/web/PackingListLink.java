package org.tareline.trip.web;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.springframework.stereotype.Component;
import org.springframework.web.util.UriUtils;
import org.tareline.ledger.Member;
import org.tareline.ledger.SharedPage;
import org.tareline.trip.Trips;

/** The packing list of a trip, as a page that may be shown by a link. */
@Component
class PackingListLink implements SharedPage {

  private static final Pattern PAGE = Pattern.compile("/trips/([^/?#]+)/packing-list(?:\\?[^#]*)?");

  private final Trips trips;

  PackingListLink(Trips trips) {
    this.trips = trips;
  }

  @Override
  public Optional<String> title(Member member, String page) {
    Matcher parts = PAGE.matcher(page);
    return parts.matches()
        ? Optional.of(
            "Packing list of "
                + trips.get(member, UriUtils.decode(parts.group(1), StandardCharsets.UTF_8)).name())
        : Optional.empty();
  }
}
