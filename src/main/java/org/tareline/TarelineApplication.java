package org.tareline;

import java.util.Arrays;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.tareline.exchange.Restoring;

/** Starts the server; with {@code --restore=newest} it restores a backup instead, and ends. */
@SpringBootApplication
public class TarelineApplication {

  public static void main(String[] arguments) {
    if (Arrays.stream(arguments).anyMatch(one -> one.startsWith("--" + Restoring.OPTION + "="))) {
      System.exit(Restoring.restore(arguments));
    }
    SpringApplication.run(TarelineApplication.class, arguments);
  }
}
