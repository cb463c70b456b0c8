package org.tareline.testing;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * Feature tests in a real browser: Chromium, where the environment variable {@code CHROMIUM} or
 * {@code /usr/bin/chromium} says. A test takes a {@link Chromium} as a parameter. They run on H2
 * alone: what a browser does is the same on any database.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@Documented
@Tag("browser")
@FeatureTest
@ExtendWith(Chromiums.class)
public @interface BrowserTest {}
