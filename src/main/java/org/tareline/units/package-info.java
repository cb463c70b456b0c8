/**
 * Exact quantities, and the one reader and writer of them as text. Uses the JDK alone; knows
 * nothing of weighing, storage or pages.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package org.tareline.units;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
