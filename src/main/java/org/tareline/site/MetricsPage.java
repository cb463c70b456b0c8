package org.tareline.site;

import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.ResponseBody;

/**
 * Figures of the running server for Prometheus, with nothing of any ledger in them. They are kept
 * only where a token is set, and there only for who sends it.
 */
@Controller
class MetricsPage {

  static final String TOKEN = "tareline.metrics.token";
  private static final int SHORTEST_TOKEN = 16;

  @Configuration(proxyBeanMethods = false)
  @ConditionalOnProperty(TOKEN)
  static class Kept {

    @Bean
    PrometheusMeterRegistry prometheus(@Value("${" + TOKEN + "}") String token) {
      if (token.length() < SHORTEST_TOKEN) {
        throw new IllegalStateException(
            "Set TARELINE_METRICS_TOKEN to " + SHORTEST_TOKEN + " characters or more.");
      }
      return new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);
    }
  }

  private final ObjectProvider<PrometheusMeterRegistry> kept;
  private final byte[] expected;

  MetricsPage(
      ObjectProvider<PrometheusMeterRegistry> kept, @Value("${" + TOKEN + ":}") String token) {
    this.kept = kept;
    this.expected = ("Bearer " + token).getBytes(StandardCharsets.UTF_8);
  }

  @GetMapping(path = "/metrics", produces = "text/plain;version=0.0.4;charset=utf-8")
  @ResponseBody
  String metrics(
      @RequestHeader(name = HttpHeaders.AUTHORIZATION, required = false) @Nullable String given) {
    PrometheusMeterRegistry figures = kept.getIfAvailable();
    if (figures == null
        || given == null
        || !MessageDigest.isEqual(given.getBytes(StandardCharsets.UTF_8), expected)) {
      throw new NotThere("page");
    }
    return figures.scrape();
  }
}
