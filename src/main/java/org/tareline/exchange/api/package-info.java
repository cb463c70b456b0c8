/** JSON of {@link org.tareline.exchange}. */
@NullMarked
package org.tareline.exchange.api;

import org.jspecify.annotations.NullMarked;
