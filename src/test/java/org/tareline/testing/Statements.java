package org.tareline.testing;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/** Every SQL statement the server prepares, noted while a test listens. */
public final class Statements {

  private final List<String> noted = new CopyOnWriteArrayList<>();
  private volatile @Nullable Thread listening;

  Statements() {}

  /** Something a test does to the server. */
  @FunctionalInterface
  public interface Doing {
    void run() throws Exception;
  }

  /** The statements that the server prepares while something is done to it, in their order. */
  public List<String> during(Doing doing) {
    noted.clear();
    listening = Thread.currentThread();
    try {
      doing.run();
    } catch (RuntimeException failed) {
      throw failed;
    } catch (Exception failed) {
      throw new AssertionError(failed);
    } finally {
      listening = null;
    }
    return List.copyOf(noted);
  }

  /** The test's own thread and those that answer requests: what goes by the clock is none of it. */
  private boolean isListenedTo(Thread thread) {
    Thread test = listening;
    return test != null && (thread == test || thread.getName().contains("-exec-"));
  }

  DataSource noting(DataSource pool) {
    return new DelegatingDataSource(pool) {
      @Override
      public Connection getConnection() throws SQLException {
        return noting(super.getConnection());
      }
    };
  }

  private Connection noting(Connection connection) {
    return (Connection)
        Proxy.newProxyInstance(
            Connection.class.getClassLoader(),
            new Class<?>[] {Connection.class},
            (proxy, method, arguments) -> {
              if (isListenedTo(Thread.currentThread())
                  && method.getName().matches("prepare(Statement|Call)")) {
                noted.add(String.valueOf(arguments[0]));
              }
              try {
                return method.invoke(connection, arguments);
              } catch (InvocationTargetException thrown) {
                throw thrown.getCause();
              }
            });
  }
}
