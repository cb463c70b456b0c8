package org.tareline.testing;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.JdbcTemplate;
import org.tareline.TarelineApplication;
import org.tareline.ledger.Accounts;
import org.tareline.ledger.Member;

/** The running server, as its neighbours see it and, where that is not enough, from inside. */
public final class TestServer implements AutoCloseable {

  private static final AtomicInteger OPENED = new AtomicInteger();

  private final ApplicationContext context;
  private final String address;

  TestServer(ApplicationContext context) {
    this.context = context;
    this.address =
        "http://127.0.0.1:" + context.getEnvironment().getRequiredProperty("local.server.port");
  }

  /**
   * Starts another server, on an empty database of its own; to be closed. For what only a new
   * server does: everything else is tested on the shared one.
   *
   * @param settings such as {@code tareline.first-owner.name=ada}
   */
  public static TestServer startEmpty(String... settings) {
    return startOn(TestDatabase.fresh(), settings);
  }

  /** The same on a certain database. */
  public static TestServer startOn(TestDatabase database, String... settings) {
    List<String> arguments = new ArrayList<>(List.of("--server.port=0"));
    for (String setting : settings) {
      arguments.add("--" + setting);
    }
    return new TestServer(
        new SpringApplicationBuilder(TarelineApplication.class)
            .initializers(new OnTestDatabase(database))
            .run(arguments.toArray(String[]::new)));
  }

  /** Such as {@code http://127.0.0.1:41234}, with no slash at the end. */
  public String address() {
    return address;
  }

  /** A new account with an empty ledger of its own. */
  public TestLedger openLedger() {
    return open(false);
  }

  /** A new account with the sample ledger. */
  public TestLedger openSampleLedger() {
    return open(true);
  }

  private TestLedger open(boolean withSample) {
    String name = "maker " + OPENED.incrementAndGet();
    String password = "a sentence of " + name;
    Member member = CheapHashes.during(() -> bean(Accounts.class).open(name, password, withSample));
    return new TestLedger(this, member, name, password);
  }

  /** The API as somebody with this name and password sees it. */
  public Api api(String name, String password) {
    return api().signedInAs(name, password);
  }

  /** The API as a stranger sees it. */
  public Api api() {
    return Api.at(address);
  }

  /** The pages as a stranger with a new browser sees them. */
  public Pages pages() {
    return new Pages(address);
  }

  /** The SQL statements that the server runs while something is done to it. */
  public List<String> statements(Statements.Doing doing) {
    return bean(Statements.class).during(doing);
  }

  /** The database itself. */
  public JdbcTemplate database() {
    return bean(JdbcTemplate.class);
  }

  /** The number a query finds, such as a {@code select count(*)}. */
  public long count(String sql, Object... values) {
    Long found = database().queryForObject(sql, Long.class, values);
    if (found == null) {
      throw new AssertionError("No number came of " + sql);
    }
    return found;
  }

  public <T> T bean(Class<T> type) {
    return context.getBean(type);
  }

  public <T> Collection<T> beans(Class<T> type) {
    return context.getBeansOfType(type).values();
  }

  @Override
  public void close() {
    ((ConfigurableApplicationContext) context).close();
  }
}
