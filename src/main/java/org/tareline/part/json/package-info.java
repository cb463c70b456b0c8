/** What a change of material does, in an answer, be it of a part or of a rig. */
@NullMarked
@NamedInterface("json")
package org.tareline.part.json;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
