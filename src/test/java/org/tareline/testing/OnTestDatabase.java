package org.tareline.testing;

import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.boot.test.util.TestPropertyValues;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.support.GenericApplicationContext;

/**
 * Puts the application on an empty test database, under a clock that tests can move, with every SQL
 * statement noted. Nothing else differs from what ships.
 */
final class OnTestDatabase
    implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    // Above the environment of whoever runs the tests: its variables may point at a real ledger.
    TestPropertyValues.of(TestDatabase.fresh().properties()).applyTo(context);
    GenericApplicationContext beans = (GenericApplicationContext) context;
    beans.registerBean(TestClock.class, definition -> definition.setPrimary(true));
    beans.registerBean(Statements.class);
    beans.registerBean(NotingStatements.class);
  }

  /** Wraps the pool in the notebook of statements. */
  static final class NotingStatements implements BeanPostProcessor {

    private final org.springframework.beans.factory.ObjectProvider<Statements> statements;

    NotingStatements(org.springframework.beans.factory.ObjectProvider<Statements> statements) {
      this.statements = statements;
    }

    @Override
    public @Nullable Object postProcessAfterInitialization(Object bean, String name) {
      return bean instanceof DataSource pool ? statements.getObject().noting(pool) : bean;
    }
  }
}
