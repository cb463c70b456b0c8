package org.tareline.ledger.api;

import jakarta.servlet.http.HttpServletResponse;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Ledgers;
import org.tareline.ledger.Member;
import org.tareline.ledger.Settings;
import org.tareline.site.RevisionTag;

/** What a ledger takes for granted. */
@RestController
@RequestMapping("/api/v1/settings")
class SettingsResource {

  /** Settings as they are sent; what is left out stays as it is. */
  record SettingsRequest(
      @Nullable GrowthJson growthAllowance,
      @Nullable String statedTolerance,
      @Nullable String checkEvery,
      @Nullable String designFactor,
      @Nullable Map<String, @Nullable String> air) {

    Ledgers.Entry entry() {
      return new Ledgers.Entry(
          growthAllowance == null ? null : growthAllowance.entry(),
          statedTolerance,
          checkEvery,
          designFactor,
          air);
    }
  }

  /**
   * Settings.
   *
   * @param growthAllowance what a mass may still grow by until it is weighed, by where it comes
   *     from, each as a percentage of it
   * @param statedTolerance half-width of a stated mass without a tolerance of its own, as a
   *     percentage of it
   * @param checkEvery days after a check of a scale until the next is due
   * @param designFactor how many times stronger than its load a line is to be
   * @param air half-width of what the air of the day does to a mass, by fibre, as a percentage of
   *     it
   */
  record SettingsJson(
      GrowthJson growthAllowance,
      String statedTolerance,
      int checkEvery,
      String designFactor,
      Map<String, String> air) {

    static SettingsJson of(Settings settings) {
      Map<String, String> air = new LinkedHashMap<>();
      for (Fibre fibre : Fibre.values()) {
        air.put(fibre.word(), settings.airTyped(fibre));
      }
      return new SettingsJson(
          new GrowthJson(
              settings.growthTyped(Basis.ESTIMATED),
              settings.growthTyped(Basis.CALCULATED),
              settings.growthTyped(Basis.WEIGHED)),
          settings.statedTyped(),
          settings.checkEveryDays(),
          settings.designFactorTyped(),
          air);
    }
  }

  /** Allowances by where a mass comes from. */
  record GrowthJson(
      @Nullable String estimated, @Nullable String calculated, @Nullable String weighed) {

    Ledgers.GrowthEntry entry() {
      return new Ledgers.GrowthEntry(estimated, calculated, weighed);
    }
  }

  private final Ledgers ledgers;

  SettingsResource(Ledgers ledgers) {
    this.ledgers = ledgers;
  }

  @GetMapping
  SettingsJson now(Member member, HttpServletResponse response) {
    return answer(ledgers.settings(member), response);
  }

  /** Changes those that are sent. */
  @PutMapping
  SettingsJson change(
      Member member,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody SettingsRequest sent,
      HttpServletResponse response) {
    return answer(ledgers.settle(member, sent.entry(), RevisionTag.expected(ifMatch)), response);
  }

  private static SettingsJson answer(Ledgers.Kept kept, HttpServletResponse response) {
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(kept.revision()));
    return SettingsJson.of(kept.settings());
  }
}
