package org.tareline.site;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * The order that a table was asked for in, and the addresses that ask for another. Where none was
 * asked for it is that of the first column.
 *
 * @param <L> a line of the table
 */
public final class TableOrder<L> {

  /**
   * The heading of a column, which sorts by it.
   *
   * @param heard said before the label where that is a sign alone
   * @param sorted {@code ascending} or {@code descending}; null where it is sorted by another
   */
  public record Head(
      @Nullable String heard, String label, String look, String address, @Nullable String sorted) {}

  private final TableAsked asked;
  private final List<TableColumn<L>> columns;
  private final TableColumn<L> first;
  private final TableColumn<L> by;
  private final boolean descending;

  public TableOrder(TableAsked asked, List<TableColumn<L>> columns) {
    this.asked = asked;
    this.columns = columns;
    this.first = columns.get(0);
    TableColumn<L> named =
        columns.stream()
            .filter(column -> column.word().equals(asked.sort()))
            .findFirst()
            .orElse(null);
    this.by = named == null ? first : named;
    this.descending =
        asked.order() == null && named == null
            ? by.largestFirst()
            : "descending".equals(asked.order());
  }

  /** The column that it is sorted by. */
  public TableColumn<L> by() {
    return by;
  }

  /** The lines in this order; those that are alike in it are in that of the first column. */
  public List<L> sorted(Stream<L> lines) {
    return lines.sorted(of(by, descending).thenComparing(of(first, first.largestFirst()))).toList();
  }

  private static <L> Comparator<L> of(TableColumn<L> column, boolean descending) {
    return descending ? column.descending() : column.ascending();
  }

  /**
   * A heading for every column, in their order.
   *
   * @param filters what else was asked for, by the names of the parameters
   */
  public List<Head> heads(String path, Map<String, String> filters) {
    return columns.stream()
        .map(
            column ->
                new Head(
                    column.heard(),
                    column.label(),
                    column.look(),
                    address(
                        path,
                        filters,
                        column,
                        column.equals(by) ? !descending : column.largestFirst()),
                    column.equals(by) ? descending ? "descending" : "ascending" : null))
        .toList();
  }

  /** An address that carries along all that was asked for. */
  public String address(String path, Map<String, String> filters) {
    return address(path, filters, by, descending);
  }

  private String address(
      String path, Map<String, String> filters, TableColumn<L> column, boolean down) {
    Map<String, String> parameters = new LinkedHashMap<>();
    if (asked.filtered()) {
      parameters.put("text", asked.words());
    }
    parameters.putAll(filters);
    if (!column.equals(first) || down != first.largestFirst()) {
      parameters.put("sort", column.word());
      parameters.put("order", down ? "descending" : "ascending");
    }
    UriComponentsBuilder address = UriComponentsBuilder.fromPath(path);
    parameters.keySet().forEach(name -> address.queryParam(name, "{" + name + "}"));
    return address.encode().build(parameters).toString();
  }
}
