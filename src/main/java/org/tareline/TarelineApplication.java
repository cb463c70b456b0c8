package org.tareline;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** Starts the server. */
@SpringBootApplication
public class TarelineApplication {

  public static void main(String[] arguments) {
    SpringApplication.run(TarelineApplication.class, arguments);
  }
}
