/**
 * Who may see what: accounts, ledgers, members, and the rules of signing in.
 *
 * @see org.tareline.ArchitectureTests
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"units", "evidence", "site", "site :: json"})
package org.tareline.ledger;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
