package org.tareline.weighing.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Instant;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.evidence.AccuracyClass;
import org.tareline.evidence.Span;
import org.tareline.ledger.Member;
import org.tareline.site.AsTyped;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.site.TableAsked;
import org.tareline.site.TableOrder;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;
import org.tareline.units.Percent;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;

/** The scales of a ledger, and the form that adds one. */
@Controller
class ScaleController {

  /** A scale as typed. */
  record ScaleForm(
      @Nullable String code,
      @Nullable String name,
      @Nullable String readability,
      @Nullable String capacity,
      @Nullable String repeatability,
      @Nullable String repeatabilityDegreesOfFreedom,
      @Nullable String spanTolerance,
      @Nullable String accuracyClass,
      @Nullable String verificationInterval,
      @Nullable String checkEvery) {

    static final ScaleForm EMPTY =
        new ScaleForm(null, null, null, null, null, null, null, null, null, null);

    Scales.Entry entry() {
      return new Scales.Entry(
          code,
          name,
          readability,
          capacity,
          repeatability,
          repeatabilityDegreesOfFreedom,
          spanTolerance,
          accuracyClass,
          verificationInterval,
          checkEvery);
    }

    /** Whether anything was said that most scales do not state. */
    boolean more() {
      return Stream.of(
              repeatabilityDegreesOfFreedom, accuracyClass, verificationInterval, checkEvery)
          .anyMatch(each -> each != null && !each.isBlank());
    }
  }

  /**
   * A scale as a page shows it.
   *
   * @param repeatability null where it is not known, and so {@code span}
   * @param lastUsed null where it never was, and so {@code lastChecked}
   */
  record ScaleRow(
      String code,
      String name,
      String readability,
      String capacity,
      @Nullable String repeatability,
      @Nullable String span,
      long weighings,
      @Nullable String lastUsed,
      @Nullable String lastChecked,
      boolean overdue) {}

  private final Scales scales;
  private final Moments moments;
  private final Clock clock;

  ScaleController(Scales scales, Moments moments, Clock clock) {
    this.scales = scales;
    this.moments = moments;
    this.clock = clock;
  }

  @GetMapping("/scales")
  String scales(Member member, @ModelAttribute("asked") TableAsked asked, Model model) {
    return page(member, model, asked, ScaleForm.EMPTY);
  }

  @GetMapping("/scales.csv")
  ResponseEntity<byte[]> file(Member member, @ModelAttribute("asked") TableAsked asked) {
    return table(member, new TableOrder<>(asked, ScaleTable.COLUMNS))
        .csv(member.settings(), moments)
        .asFile("scales.csv");
  }

  @PostMapping("/scales")
  Object add(
      Member member,
      @ModelAttribute("form") ScaleForm form,
      Model model,
      RedirectAttributes flash) {
    try {
      Scale scale = scales.add(member, form.entry());
      flash.addFlashAttribute("done", scale.code() + " is in the ledger.");
      return SeeOther.page("/scales/{code}", scale.code());
    } catch (Refusal refusal) {
      // The form calls the class by another name, as a word of the language stands in its way.
      model.addAttribute(
          "faults", refusal.faults(field -> field.equals("class") ? "accuracyClass" : field));
      return page(member, model, new TableAsked(null, null, null), form);
    }
  }

  private ScaleTable table(Member member, TableOrder<ScaleTable.Line> order) {
    return ScaleTable.of(scales.all(member), scales.uses(member), clock.instant(), order);
  }

  private String page(Member member, Model model, TableAsked asked, ScaleForm form) {
    TableOrder<ScaleTable.Line> order = new TableOrder<>(asked, ScaleTable.COLUMNS);
    model.addAttribute(
        "scales", table(member, order).lines().stream().map(line -> row(member, line)).toList());
    model.addAttribute("heads", order.heads("/scales", Map.of()));
    model.addAttribute("csv", order.address("/scales.csv", Map.of()));
    model.addAttribute("form", form);
    model.addAttribute("more", form.more());
    model.addAttribute(
        "classes",
        Stream.concat(
                Stream.of(new Choice("", "none stated")),
                Arrays.stream(AccuracyClass.values())
                    .map(each -> new Choice(each.name(), each.name())))
            .toList());
    return "weighing/scales";
  }

  private ScaleRow row(Member member, ScaleTable.Line line) {
    MassStyle style = member.massStyle();
    Scale scale = line.scale();
    Mass repeatability = line.repeatability();
    Instant used = line.lastUsed();
    Instant checked = line.lastChecked();
    return new ScaleRow(
        scale.code(),
        scale.name(),
        AsTyped.text(scale.readabilityTyped(), Unit.GRAM),
        AsTyped.text(scale.capacityTyped(), Unit.GRAM),
        repeatability == null ? null : style.text(repeatability, style.decimals(repeatability, 2)),
        span(line),
        line.weighings(),
        used == null ? null : moments.day(used),
        checked == null ? null : moments.day(checked),
        scales.overdue(member, scale).isPresent());
  }

  private static @Nullable String span(ScaleTable.Line line) {
    Optional<Span.Permitted> permitted = line.scale().permitted();
    if (line.lastChecked() == null && permitted.isPresent()) {
      return "class " + permitted.get().accuracyClass().name();
    }
    BigDecimal offBy = line.offBy();
    return offBy == null
        ? null
        : new Percent(offBy.round(new MathContext(2, RoundingMode.HALF_EVEN))).toString();
  }
}
