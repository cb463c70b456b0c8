/**
 * Rigs: nested assemblies of parts, their roles and scopes, their totals and how two of them
 * compare.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "units",
      "evidence",
      "rollup",
      "statics",
      "site",
      "site :: json",
      "ledger",
      "weighing",
      "weighing :: json",
      "material",
      "part",
      "part :: json"
    })
package org.tareline.rig;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
