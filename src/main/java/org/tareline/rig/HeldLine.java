package org.tareline.rig;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A line of a rig with the thing it holds, which is a part or a rig.
 *
 * @param id survives edits of the line
 * @param part code of the part; null where it holds a rig
 * @param rig code of the rig; null where it holds a part
 * @param name of what it holds
 */
public record HeldLine(
    UUID id, @Nullable String part, @Nullable String rig, String name, int quantity, String role) {}
