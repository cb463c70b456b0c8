package org.tareline.testing;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * A port for a process that has to be told one, and keeps it while it is down. It is below those
 * that systems hand out by themselves (from 32768 on Linux, from 49152 by RFC 6335, 6): one of
 * these may be somebody else's by the time that the process takes it, if only as the near end of a
 * connection that asks whether the process is there.
 */
public final class FreePort {

  private static final int FIRST = 20_000;
  private static final int HOW_MANY = 10_000;

  /** Two runs at one time begin at different places. */
  private static final AtomicInteger NEXT =
      new AtomicInteger((int) (ProcessHandle.current().pid() * 97 % HOW_MANY));

  private FreePort() {}

  /** Another at each call. */
  public static int next() {
    for (int tries = 0; tries < HOW_MANY; tries++) {
      int port = FIRST + Math.floorMod(NEXT.getAndIncrement(), HOW_MANY);
      try (ServerSocket free = new ServerSocket(port, 1, InetAddress.getByName("127.0.0.1"))) {
        return free.getLocalPort();
      } catch (IOException taken) {
        // The one after it, then.
      }
    }
    throw new IllegalStateException("No port is free");
  }
}
