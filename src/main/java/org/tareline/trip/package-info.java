/**
 * Trips: what is carried, how it travels, and what it weighs.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "units",
      "evidence",
      "rollup",
      "provisions",
      "site",
      "site :: json",
      "ledger",
      "weighing",
      "part",
      "part :: json",
      "rig"
    })
package org.tareline.trip;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
