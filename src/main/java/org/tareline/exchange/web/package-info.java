/** Pages of {@link org.tareline.exchange}. */
@NullMarked
package org.tareline.exchange.web;

import org.jspecify.annotations.NullMarked;
