/**
 * The forces in what a person hangs in: supports, bridles and bars, ridge lines, shallow cables and
 * struts. Plain Java. Inside, forces are doubles in newtons, lengths in metres and angles in
 * radians; what {@link org.tareline.statics.Hang} takes and gives is in the base units of {@link
 * org.tareline.units.Kind}. Everything is at rest: getting in, swinging and falling are covered
 * only by an allowance that somebody sets.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = "units")
package org.tareline.statics;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
