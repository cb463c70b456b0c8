/**
 * The home page: log a weighing of anything, see what it moved and what waits for the scale.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "units",
      "evidence",
      "rollup",
      "site",
      "site :: json",
      "ledger",
      "weighing",
      "weighing :: json",
      "material",
      "part",
      "rig"
    })
package org.tareline.bench;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
