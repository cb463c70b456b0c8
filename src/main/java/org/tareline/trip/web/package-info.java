/** Pages of {@link org.tareline.trip}. */
@NullMarked
package org.tareline.trip.web;

import org.jspecify.annotations.NullMarked;
