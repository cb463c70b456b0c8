package org.tareline.part;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Member;
import org.tareline.site.Codes;
import org.tareline.units.DecimalMark;

/**
 * Second designs of parts. A variant begins as a copy of another part: its description and its cut
 * list, and neither its weighings nor its history, for those are of the other.
 */
@Service
@Transactional(readOnly = true)
public class PartVariants {

  /**
   * A variant as somebody typed it.
   *
   * @param name that of the other part, marked as a variant, when left out
   * @param owned none when left out
   * @param replace codes of materials by codes of those that they stand in for; may be left out
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String owned,
      @Nullable Map<String, @Nullable String> replace) {}

  /**
   * What a part is a variant of, and what is a variant of it.
   *
   * @param original null where it is no variant
   * @param variants by code
   */
  public record Kin(@Nullable Part original, List<Part> variants) {}

  private static final int LONGEST_NAME = 200;
  private static final String MARK = " (variant)";

  private final PartRepository repository;
  private final Parts parts;
  private final WhatIfs whatIfs;

  PartVariants(PartRepository repository, Parts parts, WhatIfs whatIfs) {
    this.repository = repository;
    this.parts = parts;
    this.whatIfs = whatIfs;
  }

  public Kin kin(Member member, Part part) {
    List<Part> kin = repository.kin(member.ledgerId(), part.id());
    return new Kin(
        kin.stream()
            .filter(other -> part.variantOf().filter(id -> id == other.id()).isPresent())
            .findFirst()
            .orElse(null),
        kin.stream()
            .filter(other -> other.variantOf().filter(id -> id == part.id()).isPresent())
            .toList());
  }

  /** A code for a variant of a part that no part has or had. */
  public String freeCode(Member member, Part part) {
    return Codes.another(part.code(), code -> parts.find(member, code).isPresent());
  }

  /**
   * Puts a variant of a part into the ledger.
   *
   * @throws org.tareline.site.NotThere if there is no such part
   * @throws org.tareline.site.Refusal if the entry cannot be read, the code is taken or a material
   *     cannot be replaced so
   */
  @Transactional
  public Part add(Member member, String code, Entry entry) {
    Part original = parts.locked(member, code);
    if (entry.replace() == null || entry.replace().isEmpty()) {
      Calculation calculation = parts.calculation(member, original).orElse(null);
      return add(member, original, entry, calculation, List.of());
    }
    WhatIf whatIf = whatIfs.of(member, original, parts.mass(member, original), entry.replace());
    return add(member, original, entry, whatIf);
  }

  /** As a what-if has it, which says what is replaced. */
  @Transactional
  public Part add(Member member, Part original, Entry entry, WhatIf whatIf) {
    return add(member, original, entry, whatIf.after(), whatIf.swaps());
  }

  private Part add(
      Member member,
      Part original,
      Entry entry,
      @Nullable Calculation calculation,
      List<Swap> swaps) {
    boolean ownStated = swaps.isEmpty();
    return parts.add(
        member,
        new Parts.Entry(
            entry.code(),
            name(original.name(), entry.name()),
            original.system().word(),
            entry.owned() == null || entry.owned().isBlank() ? "0" : entry.owned(),
            // A mass that is stated of the one material says nothing of the other.
            new Parts.StatedEntry(
                ownStated ? original.statedTyped().orElse(null) : null,
                ownStated ? original.statedToleranceTyped().orElse(null) : null,
                DecimalMark.EITHER),
            fibre(original, swaps).map(Fibre::word).orElse(null),
            // Nor does a strength.
            original
                .strength()
                .filter(strength -> ownStated)
                .map(
                    strength ->
                        new Parts.StrengthEntry(strength.force().text(), strength.kind().word()))
                .orElse(null),
            original.comfort().filter(comfort -> ownStated).map(Comfort::entry).orElse(null),
            // Nor how far it can be pressed together; a bar is as long of whatever it is made.
            new PackedSize.Entry(
                ownStated ? original.packed().volumeTyped() : null,
                original.packed().lengthTyped()),
            original.note().orElse(null),
            calculation == null ? null : sheet(original, calculation)),
        original);
  }

  /** What was typed; else that of the other, marked as a variant where there is room for it. */
  public static String name(String original, @Nullable String typed) {
    return typed != null && !typed.isBlank()
        ? typed
        : original.length() + MARK.length() > LONGEST_NAME || original.endsWith(MARK)
            ? original
            : original + MARK;
  }

  /** That of the material which takes the place of the one that it was the fibre of. */
  private static Optional<Fibre> fibre(Part original, List<Swap> swaps) {
    return swaps.stream()
        .filter(swap -> original.fibre().isPresent())
        .filter(swap -> swap.from().fibre().equals(original.fibre()))
        .findFirst()
        .map(swap -> swap.to().fibre())
        .orElse(original.fibre());
  }

  private static Parts.SheetEntry sheet(Part original, Calculation calculation) {
    return new Parts.SheetEntry(
        original.cuttingToleranceTyped().orElse(null),
        calculation.lines().stream().map(PartVariants::line).toList());
  }

  private static Parts.CutEntry line(Calculation.Line line) {
    CutLine cut = line.line();
    return new Parts.CutEntry(
        null,
        cut.name().orElse(null),
        cut.form().kind(),
        cut.form().shape().orElse(null),
        line.material().code(),
        String.valueOf(cut.quantity()),
        cut.removed() ? true : null,
        null,
        new EnumMap<>(line.typed()));
  }
}
