package org.tareline.testing;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * Feature tests of what only a new server does. They start servers of their own by {@link
 * TestServer#startEmpty}, on the same databases as a {@link FeatureTest}.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@Documented
@Tag("feature")
@ExtendWith(DatabaseAvailable.class)
public @interface EmptyServerTest {}
