/** JSON of {@link org.tareline.bench}. */
@NullMarked
package org.tareline.bench.api;

import org.jspecify.annotations.NullMarked;
