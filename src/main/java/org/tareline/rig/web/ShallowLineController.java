package org.tareline.rig.web;

import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.tareline.ledger.Member;
import org.tareline.rig.Cautions;
import org.tareline.rig.HangReader;
import org.tareline.rig.LineFigures;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Range;

/** How far a line sags under what hangs along it, such as a net on a ridge line. */
@Controller
class ShallowLineController {

  /** What was typed, as typed. */
  public record Form(String span, String perLength, String sag, String horizontal) {

    boolean isEmpty() {
      return (span + perLength + sag + horizontal).isBlank();
    }
  }

  /** What comes of it, in the units of the reader. */
  public record Answer(String sag, String horizontal, String greatest, String longer) {

    static Answer of(LineFigures figures, double span, LoadWords words) {
      return new Answer(
          words.length(figures.sag().nominal()),
          words.force(figures.horizontal()),
          words.force(figures.greatest()),
          words.length(figures.length().nominal() - span));
    }
  }

  @GetMapping("/loads/line")
  String line(
      Member member,
      @RequestParam(defaultValue = "") String span,
      @RequestParam(defaultValue = "") String perLength,
      @RequestParam(defaultValue = "") String sag,
      @RequestParam(defaultValue = "") String horizontal,
      Model model) {
    Form form = new Form(span, perLength, sag, horizontal);
    model.addAttribute("form", form);
    model.addAttribute("cautions", Cautions.ALL);
    model.addAttribute("answer", form.isEmpty() ? null : answer(member, form, model));
    return "rig/line";
  }

  private static @Nullable Answer answer(Member member, Form form, Model model) {
    try {
      LineFigures figures =
          HangReader.shallowLine(form.span(), form.perLength(), form.sag(), form.horizontal());
      return Answer.of(
          figures,
          Range.read(form.span(), Kind.LENGTH, null).nominal(),
          LoadWords.of(member.massStyle()));
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return null;
    }
  }
}
