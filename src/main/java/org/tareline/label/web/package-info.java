/** Pages of {@link org.tareline.label}. */
@NullMarked
package org.tareline.label.web;

import org.jspecify.annotations.NullMarked;
