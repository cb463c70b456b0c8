/**
 * Labels to print and stick on things: what a thing is, what it weighs, and a code that a phone
 * reads to weigh it again.
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
      "ledger",
      "weighing",
      "part",
      "rig"
    })
package org.tareline.label;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
