package org.tareline.label.web;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.evidence.Basis;
import org.tareline.label.Label;
import org.tareline.label.Labels;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.site.Figure;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.site.QrCode;
import org.tareline.site.Refusal;
import org.tareline.site.ServedAt;
import org.tareline.units.MassStyle;

/** Labels: what to print, and the sheet to be printed. */
@Controller
class LabelsController {

  /** Ten sheets of 24. */
  private static final int PAGE = 240;

  /**
   * What is asked for, as typed; nothing yet where {@code show} is null.
   *
   * @param page counted from 1
   */
  record Asked(
      @Nullable String show,
      @Nullable String system,
      @Nullable String since,
      @Nullable String codes,
      @Nullable String page) {

    Labels.Entry entry() {
      return new Labels.Entry(show, system, since, codes);
    }

    int pageOf(int pages) {
      return page != null && page.matches("[1-9][0-9]{0,5}")
          ? Math.min(Integer.parseInt(page), pages)
          : 1;
    }
  }

  /**
   * A label with ready strings.
   *
   * @param mass with its ± and unit, or null where nothing is known
   * @param standing where the mass comes from, and the day
   * @param opens what the code is for, in words
   */
  record Sticker(
      String code,
      String name,
      @Nullable String mass,
      boolean atLeast,
      String standing,
      QrCode qr,
      String opens) {}

  /**
   * The page.
   *
   * @param count how many labels there are, as a sentence; null before any were asked for
   * @param address that is in the codes, without what is to be weighed
   * @param hereAlone whether that address leads nowhere but on the machine itself
   */
  record Page(
      Asked asked,
      List<Choice> shows,
      List<Choice> systems,
      @Nullable String count,
      List<Sticker> stickers,
      @Nullable String before,
      @Nullable String after,
      String address,
      boolean hereAlone) {}

  private final Labels labels;
  private final Moments moments;
  private final Clock clock;

  LabelsController(Labels labels, Moments moments, Clock clock) {
    this.labels = labels;
    this.moments = moments;
    this.clock = clock;
  }

  @GetMapping("/labels")
  String labels(
      Member member,
      @ModelAttribute("asked") Asked asked,
      HttpServletRequest request,
      Model model) {
    List<Label> found = List.of();
    String count = null;
    if (asked.show() != null) {
      try {
        found = labels.of(member, asked.entry());
        count =
            found.isEmpty()
                ? "No part or rig fits."
                : found.size() + (found.size() == 1 ? " label" : " labels");
      } catch (Refusal refusal) {
        model.addAttribute("faults", refusal.faults());
      }
    }
    int pages = Math.max(1, (found.size() + PAGE - 1) / PAGE);
    int page = asked.pageOf(pages);
    int from = (page - 1) * PAGE;
    List<Label> shown = found.subList(from, Math.min(from + PAGE, found.size()));
    ServedAt servedAt = ServedAt.of(request);
    String address = servedAt.address();
    model.addAttribute(
        "page",
        new Page(
            asked,
            List.of(
                new Choice("parts", "parts"),
                new Choice("rigs", "rigs"),
                new Choice("both", "parts and rigs")),
            Stream.concat(
                    Stream.of(new Choice("", "everything")),
                    Arrays.stream(GearSystem.values())
                        .map(system -> new Choice(system.word(), system.pageWords())))
                .toList(),
            pages == 1 ? count : count + ", here " + (from + 1) + " to " + (from + shown.size()),
            shown.stream().map(label -> sticker(label, address, member.massStyle())).toList(),
            page > 1 ? pageAddress(asked, page - 1) : null,
            page < pages ? pageAddress(asked, page + 1) : null,
            address,
            servedAt.hereAlone()));
    return "label/labels";
  }

  private Sticker sticker(Label label, String address, MassStyle style) {
    String opens =
        UriComponentsBuilder.fromUriString(address)
            .path("/")
            .queryParam(label.kind(), "{code}")
            .encode()
            .buildAndExpand(label.code())
            .toUriString();
    return new Sticker(
        label.code(),
        label.name(),
        label.mass() == null ? null : Figure.of(label.mass(), style).sentence(),
        label.atLeast(),
        standing(label),
        QrCode.of(opens),
        "Opens Bench to weigh " + label.code());
  }

  private String standing(Label label) {
    String today = moments.day(clock.instant());
    Basis basis = label.basis();
    if (basis == null) {
      return today;
    }
    if (label.kind().equals("rig")) {
      return "complete, " + today;
    }
    return basis == Basis.WEIGHED && label.weighedAt() != null
        ? "weighed " + moments.day(label.weighedAt())
        : basis.pageWords() + ", " + today;
  }

  private static String pageAddress(Asked asked, int page) {
    return UriComponentsBuilder.fromPath("/labels")
        .queryParam("show", "{show}")
        .queryParam("system", "{system}")
        .queryParam("since", "{since}")
        .queryParam("codes", "{codes}")
        .queryParam("page", page)
        .encode()
        .buildAndExpand(
            typed(asked.show()), typed(asked.system()), typed(asked.since()), typed(asked.codes()))
        .toUriString();
  }

  private static String typed(@Nullable String text) {
    return text == null ? "" : text;
  }
}
