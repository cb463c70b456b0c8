/** Pages of {@link org.tareline.ledger}. */
@NullMarked
package org.tareline.ledger.web;

import org.jspecify.annotations.NullMarked;
