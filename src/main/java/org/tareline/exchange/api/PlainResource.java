package org.tareline.exchange.api;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.exchange.PlainImport;
import org.tareline.exchange.PlainImport.Outcome;
import org.tareline.ledger.Member;
import org.tareline.units.DecimalMark;

/** A table of somebody's own, taken in at the API. */
@RestController
@RequestMapping("/api/v1/import/plain")
class PlainResource {

  /**
   * A table, and what its columns are.
   *
   * @param things parts or weighings
   * @param columns for each column what it says, or an empty text
   * @param units for each column the unit of a mass that is written without one
   * @param decimalComma whether the comma is the decimal mark: 1,234 is then a little more than
   *     one, and 1.234 is refused; the other way round when left out
   */
  record TableRequest(
      @Nullable String things,
      @Nullable String text,
      @Nullable List<@Nullable String> columns,
      @Nullable List<@Nullable String> units,
      @Nullable Boolean decimalComma,
      @Nullable String scale,
      @Nullable String tolerance) {}

  private final PlainImport imports;

  PlainResource(PlainImport imports) {
    this.imports = imports;
  }

  /** 422 with the same answer where it was refused; a dry run only says what would be. */
  @PostMapping
  ResponseEntity<Outcome> takeIn(
      Member member,
      @RequestBody TableRequest table,
      @RequestParam(defaultValue = "false") boolean dryRun) {
    Outcome outcome =
        imports.takeIn(
            member,
            new PlainImport.Entry(
                table.things(),
                table.text(),
                table.columns(),
                table.units(),
                Boolean.TRUE.equals(table.decimalComma()) ? DecimalMark.COMMA : DecimalMark.POINT,
                table.scale(),
                table.tolerance()),
            dryRun);
    return ResponseEntity.status(outcome.good() || dryRun ? 200 : 422).body(outcome);
  }
}
