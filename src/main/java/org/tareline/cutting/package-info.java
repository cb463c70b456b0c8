/**
 * What a thing will weigh before it is cut: shapes, cut lists and how pieces lie on a roll. Plain
 * Java; lengths are doubles in metres and masses doubles in grams, rounded once at the end.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"units", "evidence"})
package org.tareline.cutting;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
