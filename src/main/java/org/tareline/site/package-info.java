/**
 * What every page shares: chrome, headers, error pages, formatters, the clock. Knows no feature.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"units", "evidence"})
package org.tareline.site;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
