package org.tareline.ledger;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Gives every page the member it is shown to, for its head. */
@ControllerAdvice(annotations = Controller.class)
class MemberOnPages {

  private final MemberOfRequest members;

  MemberOnPages(MemberOfRequest members) {
    this.members = members;
  }

  @ModelAttribute("member")
  @Nullable Member member(HttpServletRequest request) {
    try {
      return members.member(request);
    } catch (RuntimeException broken) {
      // The page that says so is shown without its head rather than not at all.
      if (request.getDispatcherType() == DispatcherType.ERROR) {
        return null;
      }
      throw broken;
    }
  }
}
