package org.tareline.site;

import io.micrometer.core.instrument.Metrics;
import java.util.function.Supplier;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/** What is counted and timed of the work itself; see {@link MetricsPage}. */
public final class Meters {

  private Meters() {}

  /** A weighing was logged; it counts once its transaction is committed. */
  public static void weighingLogged() {
    TransactionSynchronizationManager.registerSynchronization(
        new TransactionSynchronization() {
          @Override
          public void afterCommit() {
            Metrics.counter("tareline.weighings.logged").increment();
          }
        });
  }

  /** A transaction was made again because another had been in its way. */
  static void madeAgain() {
    Metrics.counter("tareline.writes.again").increment();
  }

  /** A request was refused, with this status. */
  public static void refused(int status) {
    Metrics.counter("tareline.refused", "status", String.valueOf(status)).increment();
  }

  /** Times a roll-up. */
  public static <T> T rollingUp(Supplier<T> rollUp) {
    return Metrics.timer("tareline.roll.up").record(rollUp);
  }
}
