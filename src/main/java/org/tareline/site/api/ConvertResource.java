package org.tareline.site.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.site.Faults;
import org.tareline.units.Conversion;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** Exact conversion of anything the reader of quantities reads. */
@RestController
class ConvertResource {

  private static final int LONGEST_QUANTITY = 200;
  private static final int LONGEST_UNIT = 40;

  /**
   * A quantity in another unit.
   *
   * @param value a decimal: exact where it is finite in this unit, else 17 significant digits
   * @param unit a UCUM code
   * @param notes what is to be known of how it was read; left out where there is nothing to say
   */
  record ConversionJson(
      String kind,
      String value,
      String unit,
      boolean exact,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> notes) {}

  @GetMapping("/api/v1/convert")
  ConversionJson convert(
      @RequestParam(required = false) @Nullable String quantity,
      @RequestParam(required = false) @Nullable String to) {
    Faults faults = new Faults();
    String typed =
        faults.text("quantity", quantity, "a quantity, such as 13 1/4 oz", LONGEST_QUANTITY);
    String named = faults.text("to", to, "the unit to give it in, such as g", LONGEST_UNIT);
    Quantity read =
        typed.isEmpty() || typed.length() > LONGEST_QUANTITY
            ? null
            : faults.read("quantity", () -> Quantity.read(typed));
    Unit unit =
        named.isEmpty() || named.length() > LONGEST_UNIT
            ? null
            : faults.read("to", () -> Unit.named(named));
    Conversion converted =
        read == null || unit == null ? null : faults.read("to", () -> read.in(unit));
    faults.refuseIfAny();
    if (read == null || converted == null) {
      throw new IllegalStateException("A fault was noted for what could not be read");
    }
    return new ConversionJson(
        converted.kind().word(),
        converted.value(),
        converted.unit().ucum(),
        converted.exact(),
        read.notes());
  }
}
