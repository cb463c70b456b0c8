/** Shapes that the whole API shares: quantities, estimates, lists. */
@NullMarked
@NamedInterface("json")
package org.tareline.site.json;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
