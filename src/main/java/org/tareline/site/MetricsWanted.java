package org.tareline.site;

import org.jspecify.annotations.Nullable;
import org.springframework.boot.autoconfigure.AutoConfigurationImportFilter;
import org.springframework.boot.autoconfigure.AutoConfigurationMetadata;
import org.springframework.context.EnvironmentAware;
import org.springframework.core.env.Environment;

/** Leaves out all that measures the server where nobody asks, which starts the sooner. */
final class MetricsWanted implements AutoConfigurationImportFilter, EnvironmentAware {

  private boolean wanted;

  @Override
  public void setEnvironment(Environment environment) {
    wanted = environment.containsProperty(MetricsPage.TOKEN);
  }

  @Override
  public boolean[] match(@Nullable String[] classes, AutoConfigurationMetadata metadata) {
    boolean[] taken = new boolean[classes.length];
    for (int i = 0; i < classes.length; i++) {
      taken[i] = wanted || classes[i] == null || !measures(classes[i]);
    }
    return taken;
  }

  private static boolean measures(String configuration) {
    return configuration.contains(".metrics.") || configuration.contains("Observation");
  }
}
