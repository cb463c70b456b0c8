/**
 * Totals of nested assemblies under a scope, and differences between them.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"units", "evidence"})
package org.tareline.rollup;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
