package org.tareline.ledger;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.event.EventListener;
import org.springframework.security.authentication.event.InteractiveAuthenticationSuccessEvent;
import org.springframework.security.web.authentication.WebAuthenticationDetails;
import org.springframework.stereotype.Component;

/** Notes in the log who signed in by the form; the API signs in at every request. */
@Component
class SignInLog {

  private static final Logger LOG = LoggerFactory.getLogger(SignInLog.class);

  @EventListener
  void signedIn(InteractiveAuthenticationSuccessEvent event) {
    LOG.info(
        "Signed in: {} from {}",
        event.getAuthentication().getPrincipal(),
        event.getAuthentication().getDetails() instanceof WebAuthenticationDetails details
            ? details.getRemoteAddress()
            : "somewhere");
  }
}
