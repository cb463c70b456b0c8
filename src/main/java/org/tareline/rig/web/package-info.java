/** Pages of {@link org.tareline.rig}. */
@NullMarked
package org.tareline.rig.web;

import org.jspecify.annotations.NullMarked;
