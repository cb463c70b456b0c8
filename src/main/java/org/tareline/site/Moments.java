package org.tareline.site;

import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Instants as pages write and people type them, in the zone of the server's clock. */
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

  /**
   * An ISO 8601 date, or date and time, with or without an offset; a date alone is its midnight.
   *
   * @return now where nothing was typed, and where a fault was noted
   */
  public static Instant read(Faults faults, String field, @Nullable String typed, Clock clock) {
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    if (typed == null || typed.isBlank()) {
      return now;
    }
    String text = typed.strip();
    try {
      Instant read =
          text.length() == 10
              ? LocalDate.parse(text).atStartOfDay(clock.getZone()).toInstant()
              : text.matches(".*(Z|[+-]\\d\\d:?\\d\\d)")
                  ? OffsetDateTime.parse(text).toInstant()
                  : LocalDateTime.parse(text).atZone(clock.getZone()).toInstant();
      if (read.isAfter(Instant.parse("1900-01-01T00:00:00Z"))
          && read.isBefore(Instant.parse("2200-01-01T00:00:00Z"))) {
        return read.truncatedTo(ChronoUnit.MICROS);
      }
    } catch (DateTimeException notATime) {
      // said below
    }
    faults.add(
        field,
        "Give the time as 2027-04-11 or 2027-04-11T19:30 or 2027-04-11T19:30:00+02:00; read \""
            + Faults.shortened(text)
            + "\".");
    return now;
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
