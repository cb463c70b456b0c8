package org.tareline.site;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.springframework.stereotype.Component;

/** Instants as pages write them, in the zone of the server's clock. */
@Component
public final class Moments {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT);
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

  private final Clock clock;

  Moments(Clock clock) {
    this.clock = clock;
  }

  /** {@code 2027-04-11}. */
  public String day(Instant instant) {
    return DAY.format(local(instant));
  }

  /**
   * {@code 2027-04-11 19:30}, or the day alone for midnight, which is what a day alone is kept as.
   */
  public String minute(Instant instant) {
    ZonedDateTime local = local(instant);
    return (local.toLocalTime().equals(LocalTime.MIDNIGHT) ? DAY : MINUTE).format(local);
  }

  private ZonedDateTime local(Instant instant) {
    return instant.atZone(clock.getZone());
  }
}
