package org.tareline.ledger;

import java.security.SecureRandom;
import java.time.Duration;
import java.util.Base64;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.convert.ConversionFailedException;
import org.springframework.core.convert.TypeDescriptor;
import org.springframework.core.convert.support.GenericConversionService;
import org.springframework.core.env.Environment;
import org.springframework.core.serializer.support.DeserializingConverter;
import org.springframework.core.serializer.support.SerializingConverter;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.session.SessionRepository;
import org.springframework.session.config.SessionRepositoryCustomizer;
import org.springframework.session.jdbc.JdbcIndexedSessionRepository;
import org.springframework.session.web.http.CookieSerializer;
import org.springframework.session.web.http.SessionRepositoryFilter;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionOperations;
import org.springframework.transaction.support.TransactionTemplate;

/** Keeps sessions in the database, where every server that works on it finds them. */
@Configuration(proxyBeanMethods = false)
class Sessions {

  private static final SecureRandom RANDOM = new SecureRandom();
  private static final Logger LOG = LoggerFactory.getLogger(Sessions.class);

  /** Short ones of their own, with nothing of what pages write in them. */
  @Bean(name = "springSessionTransactionOperations", defaultCandidate = false)
  static TransactionOperations transactions(DataSource database) {
    TransactionTemplate own = new TransactionTemplate(new JdbcTransactionManager(database));
    own.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
    return own;
  }

  /**
   * What another version of the server wrote and this one cannot read is as if it were not there:
   * whoever it was signs in again.
   */
  @Bean
  static SessionRepositoryCustomizer<JdbcIndexedSessionRepository> unreadableIsNotThere() {
    GenericConversionService conversions =
        new GenericConversionService() {
          @Override
          public @Nullable Object convert(
              @Nullable Object source, @Nullable TypeDescriptor from, TypeDescriptor to) {
            try {
              return super.convert(source, from, to);
            } catch (ConversionFailedException unreadable) {
              if (source instanceof byte[]) {
                LOG.info("What a session has of another version of the server is left out");
                return null;
              }
              throw unreadable;
            }
          }
        };
    conversions.addConverter(Object.class, byte[].class, new SerializingConverter());
    conversions.addConverter(byte[].class, Object.class, new DeserializingConverter());
    return sessions -> {
      sessions.setConversionService(conversions);
      sessions.setSessionIdGenerator(Sessions::newId);
    };
  }

  /** 216 random bits, as 36 characters: the column was made for UUIDs and would fill it up. */
  private static String newId() {
    byte[] bytes = new byte[27];
    RANDOM.nextBytes(bytes);
    return Base64.getUrlEncoder().encodeToString(bytes);
  }

  @Bean
  static CookieSerializer sessionCookie() {
    return new SessionCookie();
  }

  @Bean
  static BeanPostProcessor seldomTouched(Environment settings) {
    return new BeanPostProcessor() {
      @Override
      public Object postProcessAfterInitialization(Object bean, String name) {
        return bean instanceof JdbcIndexedSessionRepository sessions
            ? new SeldomTouched<>(
                sessions, settings.getRequiredProperty("tareline.session.longest", Duration.class))
            : bean;
      }
    };
  }

  @Bean
  static OpenSessions openSessions(SessionRepository<?> sessions) {
    return new OpenSessions((SeldomTouched<?>) sessions);
  }

  @Bean
  static FilterRegistrationBean<SeldomTouched<?>> aroundEachRequest(SessionRepository<?> sessions) {
    FilterRegistrationBean<SeldomTouched<?>> around =
        new FilterRegistrationBean<>((SeldomTouched<?>) sessions);
    around.setOrder(SessionRepositoryFilter.DEFAULT_ORDER - 1);
    return around;
  }
}
