package org.tareline.testing;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;
import org.springframework.test.context.junit.jupiter.SpringExtension;

/**
 * Starts one Chromium for all tests and hands each a {@link Chromium}. After a test, whatever the
 * browser complained about is a failure.
 */
final class Chromiums implements ExecutionCondition, ParameterResolver, AfterEachCallback {

  private static final ExtensionContext.Namespace HERE =
      ExtensionContext.Namespace.create(Chromiums.class);

  private record Running(Playwright playwright, Browser browser) implements AutoCloseable {

    @Override
    public void close() {
      browser.close();
      playwright.close();
    }
  }

  private static Path executable() {
    String named = System.getenv("CHROMIUM");
    return Path.of(named == null || named.isBlank() ? "/usr/bin/chromium" : named);
  }

  @Override
  public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
    return Files.isExecutable(executable())
        ? ConditionEvaluationResult.enabled("There is a browser")
        : Skipping.unlessInCi(
            "No browser: there is no "
                + executable()
                + " (install Chromium, or name it by CHROMIUM)");
  }

  @Override
  public boolean supportsParameter(ParameterContext parameter, ExtensionContext context) {
    return parameter.getParameter().getType() == Chromium.class;
  }

  @Override
  public Object resolveParameter(ParameterContext parameter, ExtensionContext context) {
    Running running =
        context.getRoot().getStore(HERE).computeIfAbsent("running", key -> start(), Running.class);
    TestServer server = new TestServer(SpringExtension.getApplicationContext(context));
    Chromium chromium = new Chromium(running.browser(), server);
    context.getStore(HERE).put("given", chromium);
    return chromium;
  }

  @Override
  public void afterEach(ExtensionContext context) {
    Chromium given = context.getStore(HERE).remove("given", Chromium.class);
    if (given != null) {
      given.close();
    }
  }

  private static Running start() {
    PlaywrightAssertions.setDefaultAssertionTimeout(Patience.LONG.toMillis());
    Playwright playwright =
        Playwright.create(
            new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    Browser browser =
        playwright
            .chromium()
            .launch(
                new BrowserType.LaunchOptions()
                    .setExecutablePath(executable())
                    .setArgs(
                        List.of(
                            // As root in a container there is no sandbox to be had.
                            "--no-sandbox",
                            "--disable-gpu",
                            "--disable-quic",
                            "--no-first-run",
                            "--disable-background-networking",
                            "--disable-component-update",
                            "--disable-sync")));
    return new Running(playwright, browser);
  }
}
