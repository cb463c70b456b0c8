package org.tareline.testing;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/** The server's clock, in a test's hand. It goes as the machine's does again after each test. */
public final class TestClock extends Clock {

  private final ZoneId zone;
  private volatile Duration ahead = Duration.ZERO;
  private volatile @Nullable Instant stopped;

  public TestClock() {
    this.zone = ZoneId.systemDefault();
  }

  /** Stands still at an instant. */
  public void stopAt(Instant instant) {
    stopped = instant;
  }

  /** Stands still from now on, however slow the machine is. */
  public void stop() {
    stopAt(instant());
  }

  /** Lets time pass at once. */
  public void pass(Duration time) {
    if (stopped != null) {
      stopped = stopped.plus(time);
    } else {
      ahead = ahead.plus(time);
    }
  }

  void goAsTheMachineDoes() {
    stopped = null;
    ahead = Duration.ZERO;
  }

  @Override
  public Instant instant() {
    Instant still = stopped;
    return still == null ? Instant.now().plus(ahead) : still;
  }

  @Override
  public ZoneId getZone() {
    return zone;
  }

  @Override
  public Clock withZone(ZoneId other) {
    TestClock asked = this;
    return new Clock() {
      @Override
      public ZoneId getZone() {
        return other;
      }

      @Override
      public Clock withZone(ZoneId another) {
        return asked.withZone(another);
      }

      @Override
      public Instant instant() {
        return asked.instant();
      }
    };
  }
}
