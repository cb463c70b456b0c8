package org.tareline.weighing.web;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Member;
import org.tareline.units.Percent;

/** How to get a reading that can be trusted. */
@Controller
class WeighingWellController {

  /**
   * A fibre and the air.
   *
   * @param allowed what the ledger allows for it, as typed
   */
  record FibreInAir(String name, String takesUp, String allowed) {}

  @GetMapping("/weighing-well")
  String weighingWell(Member member, Model model) {
    List<FibreInAir> fibres =
        Arrays.stream(Fibre.values())
            .map(
                fibre ->
                    new FibreInAir(
                        fibre.pageWords(),
                        new Percent(BigDecimal.valueOf(fibre.regain())).toString(),
                        member.settings().airTyped(fibre)))
            .toList();
    model.addAttribute("fibres", fibres);
    return "weighing/weighing-well";
  }
}
