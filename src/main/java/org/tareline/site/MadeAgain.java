package org.tareline.site;

import java.lang.reflect.Method;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.aopalliance.intercept.MethodInterceptor;
import org.aopalliance.intercept.MethodInvocation;
import org.jspecify.annotations.Nullable;
import org.springframework.aop.ProxyMethodInvocation;
import org.springframework.aop.support.StaticMethodMatcherPointcutAdvisor;
import org.springframework.beans.factory.config.BeanDefinition;
import org.springframework.context.annotation.Role;
import org.springframework.core.Ordered;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.AnnotationTransactionAttributeSource;
import org.springframework.transaction.interceptor.TransactionAttributeSource;
import org.springframework.transaction.support.TransactionOperations;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/**
 * Makes a transaction again that gave way to another. It stands around the outermost service that
 * opens one: the database took all of it back, and the next try loads everything anew.
 */
@Component
@Role(BeanDefinition.ROLE_INFRASTRUCTURE)
class MadeAgain extends StaticMethodMatcherPointcutAdvisor {

  private static final int MOST_TRIES = 20;
  private static final int LONGEST_FIRST_PAUSE_MILLIS = 20;
  private static final int LONGEST_PAUSE_MILLIS = 1_000;

  /** Whoever waits is told so rather than kept waiting. */
  private static final long LONGEST_NANOS = TimeUnit.SECONDS.toNanos(10);

  private final transient TransactionAttributeSource declared =
      new AnnotationTransactionAttributeSource();

  MadeAgain() {
    super((MethodInterceptor) MadeAgain::untilItStands);
    // Outside of the transaction itself, which comes last.
    setOrder(Ordered.LOWEST_PRECEDENCE - 1);
  }

  @Override
  public boolean matches(Method method, Class<?> target) {
    return TransactionOperations.class.isAssignableFrom(target)
        ? method.getName().startsWith("execute")
        : declared.hasTransactionAttribute(method, target);
  }

  private static @Nullable Object untilItStands(MethodInvocation asked) throws Throwable {
    if (TransactionSynchronizationManager.isActualTransactionActive()) {
      return asked.proceed();
    }
    long begun = System.nanoTime();
    for (int tries = 1; ; tries++) {
      try {
        return ((ProxyMethodInvocation) asked).invocableClone().proceed();
      } catch (RuntimeException failed) {
        if (DatabaseFailure.of(failed) != DatabaseFailure.CONFLICT
            || tries == MOST_TRIES
            || System.nanoTime() - begun > LONGEST_NANOS) {
          throw failed;
        }
        Meters.madeAgain();
        pause(tries);
      }
    }
  }

  /** Longer each time and never alike, so that the same two do not meet again. */
  private static void pause(int tries) {
    int longest = Math.min(LONGEST_FIRST_PAUSE_MILLIS << (tries - 1), LONGEST_PAUSE_MILLIS);
    LockSupport.parkNanos(
        TimeUnit.MILLISECONDS.toNanos(ThreadLocalRandom.current().nextInt(longest)));
  }
}
