/**
 * Totals of nested assemblies under a scope, differences between them, and what would make them
 * surer or explain why they are not what the scale says.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"units", "evidence"})
package org.tareline.rollup;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
