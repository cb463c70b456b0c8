/** JSON of {@link org.tareline.rig}. */
@NullMarked
package org.tareline.rig.api;

import org.jspecify.annotations.NullMarked;
