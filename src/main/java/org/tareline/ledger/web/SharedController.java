package org.tareline.ledger.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.tareline.ledger.MemberOfRequest;
import org.tareline.ledger.ShareLinks;

/** Shows the one page that a link is good for. */
@Controller
class SharedController {

  private final ShareLinks links;
  private final MemberOfRequest members;

  SharedController(ShareLinks links, MemberOfRequest members) {
    this.links = links;
    this.members = members;
  }

  @GetMapping("/shared/{secret}")
  String shown(
      @PathVariable String secret, HttpServletRequest request, HttpServletResponse response) {
    ShareLinks.Opened opened = links.open(secret);
    members.actAs(request, opened.guest());
    response.setHeader("X-Robots-Tag", "noindex");
    return "forward:" + opened.page();
  }
}
