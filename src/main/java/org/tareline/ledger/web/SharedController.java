package org.tareline.ledger.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.tareline.ledger.MemberOfRequest;
import org.tareline.ledger.ShareLinks;
import org.tareline.site.SeeOther;

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
  Object shown(
      @PathVariable String secret, HttpServletRequest request, HttpServletResponse response) {
    ShareLinks.Opened opened = links.open(secret);
    if (request.getQueryString() != null) {
      // What is asked here would be asked of the page: it is shown as it was shared, and no other
      // way.
      return SeeOther.page("/shared/{secret}", secret);
    }
    members.actAs(request, opened.guest());
    response.setHeader("X-Robots-Tag", "noindex");
    return "forward:" + opened.page();
  }
}
