package org.tareline.exchange;

import jakarta.persistence.EntityManager;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.springframework.stereotype.Component;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Refusal;

/**
 * Has what an import wrote read again by the features it belongs to, so that nothing comes in which
 * could not have been typed, and finds the rows that their faults stand in.
 */
@Component
class ReadingAgain {

  private static final int BATCH = 500;

  /** What all else weighs is worked out from these. */
  private static final Set<String> FIRST =
      Set.of("scale", "scale_check", "weighing", "weighing_subject");

  /** A list in a field, such as {@code buildSheet.lines[2].width}. */
  private static final Pattern IN_A_LIST = Pattern.compile("(?:\\w+\\.)*(\\w+)\\[(\\d+)](.*)");

  private final List<ReadAgain> features;
  private final EntityManager entities;

  ReadingAgain(List<ReadAgain> features, EntityManager entities) {
    this.features = features;
    this.entities = entities;
  }

  /** Notes what is wrong with what was written; what rests on something bad is not looked at. */
  void read(Member member, WrittenLines lines, Problems problems) {
    // What was written beside them is not what they think there is; and so many are not to be kept.
    entities.flush();
    entities.clear();
    Set<String> bad = new HashSet<>();
    for (Table table : LedgerTables.ALL) {
      if (FIRST.contains(table.name())) {
        read(member, table, bad, lines, problems);
      }
    }
    if (bad.isEmpty()) {
      for (Table table : LedgerTables.ALL) {
        if (!FIRST.contains(table.name())) {
          read(member, table, bad, lines, problems);
        }
      }
    }
  }

  private void read(
      Member member, Table table, Set<String> bad, WrittenLines lines, Problems problems) {
    for (ReadAgain feature : features) {
      if (feature.table().equals(table.name())
          && (restsOn(table, bad) || !read(feature, member, table, lines, problems))) {
        bad.add(table.name());
      }
    }
  }

  private static boolean restsOn(Table table, Set<String> bad) {
    return LedgerTables.ALL.stream()
        .filter(
            each -> each.equals(table) || each.holder() != null && each.holderTable().equals(table))
        .flatMap(each -> each.fields().stream())
        .anyMatch(field -> field.of() != null && bad.contains(field.of()));
  }

  private boolean read(
      ReadAgain feature, Member member, Table table, WrittenLines lines, Problems problems) {
    int before = problems.count();
    List<Long> ids = lines.of(table).stream().sorted().toList();
    for (int from = 0; from < ids.size(); from += BATCH) {
      feature
          .readAgain(member, ids.subList(from, Math.min(from + BATCH, ids.size())))
          .forEach(
              (id, faults) -> faults.forEach(fault -> note(table, id, fault, lines, problems)));
      entities.clear();
    }
    return problems.count() == before;
  }

  private static void note(
      Table table, long id, Refusal.Fault fault, WrittenLines lines, Problems problems) {
    Matcher list = IN_A_LIST.matcher(fault.field());
    if (list.matches()) {
      int index = Integer.parseInt(list.group(2));
      for (Table held : LedgerTables.ALL) {
        if (list.group(1).equals(held.heldAs()) && held.holderTable().equals(table)) {
          Integer line = lines.line(held, id, index);
          if (line != null) {
            problems.note(held.file(), line, heading(held, list.group(3)), fault.message());
            return;
          }
        }
      }
    }
    problems.note(
        table.file(), lines.line(table, id), heading(table, fault.field()), fault.message());
  }

  /** The column that a field stands in, as far as their names are alike; else nothing. */
  private static String heading(Table table, String field) {
    List<String> words = new ArrayList<>();
    for (String step : field.split("\\.")) {
      if (!step.isEmpty()) {
        words.add(step.replaceAll("([a-z])([A-Z])", "$1-$2").toLowerCase(Locale.ROOT));
      }
    }
    if (words.isEmpty()) {
      return "";
    }
    String last = words.get(words.size() - 1);
    List<String> headings =
        table.fields().stream()
            .filter(column -> !column.column().equals(table.holder()))
            .map(Field::heading)
            .toList();
    for (String exact : List.of(String.join("-", words), last, words.get(0))) {
      if (headings.contains(exact)) {
        return exact;
      }
    }
    List<String> alike =
        headings.stream()
            .filter(heading -> heading.startsWith(last + "-") || heading.endsWith("-" + last))
            .toList();
    return alike.size() == 1 ? alike.get(0) : "";
  }
}
