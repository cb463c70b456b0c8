/**
 * What tests stand on: the application as it ships, on a real port, on either database, with a
 * fresh ledger for whoever asks for one.
 */
@NullMarked
package org.tareline.testing;

import org.jspecify.annotations.NullMarked;
