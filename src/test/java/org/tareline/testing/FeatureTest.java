package org.tareline.testing;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Inherited;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.test.context.ContextConfiguration;
import org.tareline.TarelineApplication;

/**
 * Tests of the whole application, as it ships, on a port of its own. They run on H2 and, with the
 * system property {@code tareline.test.database=postgresql}, on PostgreSQL. All of them share one
 * running server, so a test works in the {@link TestLedger} that is handed to it and in no other.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@Documented
@Inherited
@Tag("feature")
@ExtendWith({DatabaseAvailable.class, TestLedgers.class})
@SpringBootTest(
    classes = TarelineApplication.class,
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@ContextConfiguration(initializers = OnTestDatabase.class)
public @interface FeatureTest {}
