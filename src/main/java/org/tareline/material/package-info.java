/**
 * Materials, and the swatches that say what they weigh.
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
      "weighing :: json"
    })
package org.tareline.material;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
