/** Pages of {@link org.tareline.bench}. */
@NullMarked
package org.tareline.bench.web;

import org.jspecify.annotations.NullMarked;
