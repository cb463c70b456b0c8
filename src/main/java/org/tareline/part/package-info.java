/**
 * Parts, and where a part's mass comes from.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "units",
      "evidence",
      "cutting",
      "site",
      "site :: json",
      "ledger",
      "weighing",
      "weighing :: json",
      "material"
    })
package org.tareline.part;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
