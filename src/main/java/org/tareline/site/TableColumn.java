package org.tareline.site;

import java.util.Comparator;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A column that a table may be sorted by. What is not known comes last, whichever way it is sorted.
 *
 * @param <L> a line of the table
 * @param word that an address names it by
 * @param heard said before the label where that is a sign alone; null where it is words
 * @param look the classes of its heading
 * @param largestFirst whether it is sorted from the largest down when it is first picked
 */
public record TableColumn<L>(
    String word,
    @Nullable String heard,
    String label,
    String look,
    boolean largestFirst,
    Comparator<L> ascending,
    Comparator<L> descending) {

  /** A column that is sorted from the least up when it is first picked. */
  public static <L, T extends Comparable<? super T>> TableColumn<L> of(
      String word, String label, String look, Function<L, @Nullable T> key) {
    return new TableColumn<>(
        word,
        null,
        label,
        look,
        false,
        Comparator.comparing(key, Comparator.nullsLast(Comparator.naturalOrder())),
        Comparator.comparing(key, Comparator.nullsLast(Comparator.reverseOrder())));
  }

  /** The same column, sorted from the largest down when it is first picked. */
  public static <L> TableColumn<L> largestFirst(TableColumn<L> column) {
    return new TableColumn<>(
        column.word,
        column.heard,
        column.label,
        column.look,
        true,
        column.ascending,
        column.descending);
  }

  /** An uncertainty, whose label is the sign alone. */
  public static <L, T extends Comparable<? super T>> TableColumn<L> uncertainty(
      String word, String heard, Function<L, @Nullable T> key) {
    TableColumn<L> column = of(word, "±", "mass mass--u", key);
    return new TableColumn<>(
        word, heard, column.label, column.look, false, column.ascending, column.descending);
  }
}
