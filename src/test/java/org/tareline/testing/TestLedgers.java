package org.tareline.testing;

import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;
import org.springframework.context.ApplicationContext;
import org.springframework.test.context.junit.jupiter.SpringExtension;

/**
 * Hands a fresh {@link TestLedger} to every parameter of that type, and the {@link TestServer} to
 * whoever asks for it.
 */
final class TestLedgers implements ParameterResolver, AfterEachCallback {

  @Override
  public boolean supportsParameter(ParameterContext parameter, ExtensionContext context) {
    Class<?> type = parameter.getParameter().getType();
    return type == TestLedger.class || type == TestServer.class;
  }

  @Override
  public Object resolveParameter(ParameterContext parameter, ExtensionContext context) {
    TestServer server = new TestServer(SpringExtension.getApplicationContext(context));
    return parameter.getParameter().getType() == TestServer.class ? server : server.openLedger();
  }

  @Override
  public void afterEach(ExtensionContext context) {
    ApplicationContext running = SpringExtension.getApplicationContext(context);
    running.getBean(TestClock.class).goAsTheMachineDoes();
  }
}
