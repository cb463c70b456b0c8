package org.tareline.site;

import org.hibernate.boot.model.FunctionContributions;
import org.hibernate.boot.model.FunctionContributor;
import org.hibernate.type.StandardBasicTypes;

/**
 * {@code any_of(column, :array)} in a query, for what {@code column in :list} says: translated once
 * and not anew for each length of the list. H2 uses an index for it only by its first column, such
 * as the primary key; what is to be found by ledger and another column joins {@code
 * unnest(:array)}.
 */
public final class AnyOf implements FunctionContributor {

  @Override
  public void contributeFunctions(FunctionContributions functions) {
    functions
        .getFunctionRegistry()
        .registerPattern(
            "any_of",
            "(?1=any(?2))",
            functions
                .getTypeConfiguration()
                .getBasicTypeRegistry()
                .resolve(StandardBasicTypes.BOOLEAN));
  }
}
