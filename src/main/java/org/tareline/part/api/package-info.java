/** JSON of {@link org.tareline.part}. */
@NullMarked
package org.tareline.part.api;

import org.jspecify.annotations.NullMarked;
