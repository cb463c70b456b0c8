/**
 * Bringing a ledger in and out as files; the sample ledger comes in this way.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "units",
      "evidence",
      "site",
      "ledger",
      "weighing",
      "material",
      "part",
      "rig",
      "trip"
    })
package org.tareline.exchange;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
