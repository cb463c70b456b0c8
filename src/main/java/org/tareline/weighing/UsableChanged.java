package org.tareline.weighing;

import java.util.List;

/**
 * That things were weighed so that it may say what they weigh, or that a weighing of them was
 * struck out. Told within the transaction that did it, whoever asked for it.
 *
 * @param usable whether they have such a weighing now for sure; else they may have none
 */
public record UsableChanged(long ledgerId, List<Subject> subjects, boolean usable) {}
