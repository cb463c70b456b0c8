/**
 * What a trip wants beside gear, by published rules of thumb: fuel for water, energy of food, hours
 * of walking. Plain Java; SI inside. Every answer carries its formula, its coefficients, where they
 * come from and the range that the formula was made for, outside of which there is no figure. All
 * of it is rough.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package org.tareline.provisions;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
