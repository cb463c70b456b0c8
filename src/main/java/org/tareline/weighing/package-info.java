/**
 * Scales, and weighings of a subject. A weighing does not know what a part or a rig is, only its
 * subject; that keeps the arrows straight.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"units", "evidence", "site", "site :: json", "ledger"})
package org.tareline.weighing;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
