/** Pages of {@link org.tareline.weighing}. */
@NullMarked
package org.tareline.weighing.web;

import org.jspecify.annotations.NullMarked;
