package org.tareline.testing;

import java.time.Duration;
import java.util.concurrent.Callable;

/** How long a test waits for what is to come: long, for that costs something only when it fails. */
public final class Patience {

  public static final Duration LONG = Duration.ofMinutes(3);

  private Patience() {}

  /** Waits until something is so. */
  public static void until(Callable<Boolean> so) throws InterruptedException {
    long begun = System.nanoTime();
    while (!is(so)) {
      if (System.nanoTime() - begun > LONG.toNanos()) {
        throw new AssertionError("It was not so within " + LONG);
      }
      Thread.sleep(5);
    }
  }

  private static boolean is(Callable<Boolean> so) {
    try {
      return so.call();
    } catch (RuntimeException failed) {
      throw failed;
    } catch (Exception failed) {
      throw new AssertionError(failed);
    }
  }
}
