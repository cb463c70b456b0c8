package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import com.zaxxer.hikari.HikariDataSource;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.boot.context.properties.bind.Bindable;
import org.springframework.boot.context.properties.bind.Binder;
import org.springframework.boot.context.properties.source.ConfigurationPropertySources;
import org.springframework.core.env.SystemEnvironmentPropertySource;

/** How the environment names a setting that has a dash in its name, as DEVELOPERS.md says. */
class EnvironmentNamesTest {

  private static void bind(HikariDataSource pool, String name) {
    new Binder(
            ConfigurationPropertySources.from(
                new SystemEnvironmentPropertySource("systemEnvironment", Map.of(name, "3000"))))
        .bind("spring.datasource.hikari", Bindable.ofInstance(pool));
  }

  @Test
  void a_dash_is_left_out() {
    try (HikariDataSource pool = new HikariDataSource()) {
      bind(pool, "SPRING_DATASOURCE_HIKARI_CONNECTIONTIMEOUT");

      assertThat(pool.getConnectionTimeout()).isEqualTo(3000);
    }
  }

  @Test
  void with_an_underscore_it_is_the_timeout_of_a_connection_and_opens_the_pool_to_get_one() {
    try (HikariDataSource pool = new HikariDataSource()) {
      pool.setJdbcUrl("jdbc:h2:mem:names");
      bind(pool, "SPRING_DATASOURCE_HIKARI_CONNECTION_TIMEOUT");

      assertThat(pool.isRunning()).isTrue();
    }
  }
}
