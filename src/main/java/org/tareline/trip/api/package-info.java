/** JSON of {@link org.tareline.trip}. */
@NullMarked
package org.tareline.trip.api;

import org.jspecify.annotations.NullMarked;
