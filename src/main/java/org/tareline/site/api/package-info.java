/** What the API answers without looking into any ledger. */
@NullMarked
package org.tareline.site.api;

import org.jspecify.annotations.NullMarked;
