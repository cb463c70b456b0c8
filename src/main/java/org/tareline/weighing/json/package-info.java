/** A weighing in an answer, wherever one stands. */
@NullMarked
@NamedInterface("json")
package org.tareline.weighing.json;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
