/** JSON of {@link org.tareline.weighing}. */
@NullMarked
package org.tareline.weighing.api;

import org.jspecify.annotations.NullMarked;
