package org.tareline.testing;

import org.junit.jupiter.api.extension.ConditionEvaluationResult;

/**
 * Tests that need something of the machine (a browser, a database server) are skipped with the
 * reason where it is missing. In CI nothing may be missing, so there it is a failure.
 */
final class Skipping {

  private Skipping() {}

  static ConditionEvaluationResult unlessInCi(String reason) {
    if ("true".equals(System.getenv("CI"))) {
      throw new IllegalStateException(reason + ", and in CI that is a failure");
    }
    return ConditionEvaluationResult.disabled(reason);
  }
}
