package org.tareline.site;

import java.time.Clock;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The one clock and time zone of the server; tests hold their own. */
@Configuration(proxyBeanMethods = false)
class SiteClock {

  @Bean
  Clock clock() {
    return Clock.systemDefaultZone();
  }
}
