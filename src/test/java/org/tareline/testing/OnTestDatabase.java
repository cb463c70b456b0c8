package org.tareline.testing;

import java.util.Base64;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.boot.test.util.TestPropertyValues;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.support.GenericApplicationContext;

/**
 * Puts the application on a test database, an empty one where none is named, under a clock that
 * tests can move, with every SQL statement noted. Nothing else differs from what ships.
 */
final class OnTestDatabase
    implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  private static final String KEY = Base64.getEncoder().encodeToString(new byte[32]);

  private final TestDatabase database;

  OnTestDatabase() {
    this(TestDatabase.fresh());
  }

  OnTestDatabase(TestDatabase database) {
    this.database = database;
  }

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    // Above the environment of whoever runs the tests: its variables may point at a real ledger.
    TestPropertyValues.of(database.properties())
        // Where the clock stands still, so does the minute in which calls are counted.
        .and("TARELINE_CALLS_PER_MINUTE=1000000")
        // Else there would be one in the home of whoever runs the tests.
        .and("TARELINE_SECOND_FACTOR_KEY=" + KEY)
        .applyTo(context);
    GenericApplicationContext beans = (GenericApplicationContext) context;
    beans.registerBean(TestClock.class, definition -> definition.setPrimary(true));
    beans.registerBean(Statements.class);
    beans.registerBean(NotingStatements.class);
    beans.registerBean(CheapHashes.class);
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
