package org.tareline.exchange;

import java.io.IOException;
import java.time.Clock;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.WebApplicationType;
import org.springframework.context.ConfigurableApplicationContext;

/** The one command that puts a backup in the place of the database, with no server running. */
public final class Restoring {

  /** Nothing but the settings is wanted of Spring. */
  private static final class Nothing {}

  private Restoring() {}

  /** What names the backup: {@code --restore=newest}, or a file. */
  public static final String OPTION = "restore";

  /**
   * Restores what the arguments name, and says what was done.
   *
   * @return 0, or 1 where nothing was changed
   */
  public static int restore(String... arguments) {
    SpringApplication settingsOnly = new SpringApplication(Nothing.class);
    settingsOnly.setWebApplicationType(WebApplicationType.NONE);
    settingsOnly.setLogStartupInfo(false);
    try (ConfigurableApplicationContext context = settingsOnly.run(arguments)) {
      String named = context.getEnvironment().getRequiredProperty(OPTION);
      BackupSettings settings = BackupSettings.of(context.getEnvironment());
      String before =
          settings
              .backups()
              .restore(named, Clock.systemUTC().instant())
              .map(file -> " What was there before is kept as " + file + ".")
              .orElse("");
      System.out.println("Restored " + named + " into " + settings.data() + "." + before);
      return 0;
    } catch (IOException refused) {
      System.err.println("Nothing was restored. " + refused.getMessage());
      return 1;
    }
  }
}
