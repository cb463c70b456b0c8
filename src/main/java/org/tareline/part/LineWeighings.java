package org.tareline.part;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** Weighings of what was cut for a part, before it is sewn together. */
@Service
@Transactional(readOnly = true)
public class LineWeighings {

  /** A weighing of the pieces of a line. */
  public record Logged(CutLine line, Weighings.Logged logged) {

    /** Whether something else is cut since. */
    public boolean changed() {
      Integer revision = logged.placed().revision();
      return revision != null && revision != line.revision();
    }
  }

  /** A weighing just logged, of a line of the part's cut list. */
  public record Entered(Part part, Weighing weighing) {}

  private final Parts parts;
  private final CutSheets sheets;
  private final Weighings weighings;

  LineWeighings(Parts parts, CutSheets sheets, Weighings weighings) {
    this.parts = parts;
    this.sheets = sheets;
    this.weighings = weighings;
  }

  /** Those of the lines of a cut list, newest first, with those that were struck out. */
  public List<Logged> of(Member member, Calculation calculation) {
    Map<Long, CutLine> lines =
        calculation.lines().stream()
            .map(Calculation.Line::line)
            .collect(Collectors.toMap(CutLine::id, line -> line));
    return weighings.historyOf(member, Subject.CUT_LINE, lines.keySet()).stream()
        .map(logged -> new Logged(Objects.requireNonNull(lines.get(logged.subject().id())), logged))
        .toList();
  }

  /** The parts whose lines these are, by the row of the line. */
  public Map<Long, Part> partsOf(Member member, Collection<Long> lineIds) {
    List<CutLine> lines = sheets.lines(member, lineIds);
    Map<Long, Part> byId =
        parts.byIds(member, lines.stream().map(CutLine::partId).distinct().toList()).stream()
            .collect(Collectors.toMap(Part::id, part -> part));
    Map<Long, Part> found = new HashMap<>();
    lines.forEach(
        line ->
            Optional.ofNullable(byId.get(line.partId()))
                .ifPresent(part -> found.put(line.id(), part)));
    return found;
  }

  /**
   * Logs a weighing of the pieces of a line.
   *
   * @param entry its count is that of the line when left out: all its pieces on the pan at once
   * @return the part and the weighing
   * @throws NotThere if there is no such part or line
   * @throws Refusal with every fault of the entry; nothing has been written then
   */
  @Transactional
  public Entered log(Member member, String code, UUID lineId, Weighings.Entry entry) {
    Part part = parts.locked(member, code);
    CutLine line =
        sheets.line(member, part, lineId).orElseThrow(() -> new NotThere("line of a cut list"));
    Faults faults = new Faults();
    if (line.removed()) {
      faults.add(
          "", "What is cut away is not there to be weighed: weigh what is left of the other.");
    }
    Weighing read =
        weighings.read(
            member,
            entry.count() == null || entry.count().isBlank()
                ? entry.counting(line.quantity())
                : entry,
            faults);
    faults.refuseIfAny();
    return new Entered(
        part,
        weighings.log(
            read, List.of(Placed.cutLine(line.id(), read.pieceCount(), line.revision()))));
  }
}
