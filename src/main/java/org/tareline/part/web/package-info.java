/** Pages of {@link org.tareline.part}. */
@NullMarked
package org.tareline.part.web;

import org.jspecify.annotations.NullMarked;
