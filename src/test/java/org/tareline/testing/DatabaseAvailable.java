package org.tareline.testing;

import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;

/** Skips feature tests, with the reason, where their database cannot start; fails them in CI. */
final class DatabaseAvailable implements ExecutionCondition {

  @Override
  public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
    return TestDatabase.whyNone()
        .map(reason -> Skipping.unlessInCi("No database: " + reason))
        .orElseGet(() -> ConditionEvaluationResult.enabled("The database answers"));
  }
}
