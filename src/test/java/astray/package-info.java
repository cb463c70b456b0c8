/**
 * Breaches of the house rules, one of each kind, by which {@code ArchitectureTests} sees that its
 * rules can fail. Outside the application's packages, so that nothing else finds them.
 */
package astray;
