/** JSON of {@link org.tareline.ledger}. */
@NullMarked
package org.tareline.ledger.api;

import org.jspecify.annotations.NullMarked;
