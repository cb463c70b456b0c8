package org.tareline.ledger;

import org.springframework.beans.factory.SmartInitializingSingleton;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.stereotype.Component;
import org.tareline.site.NotThere;

/**
 * Started with {@code --new-password-for=ada}, the server prints a link for that account and serves
 * as always. It is printed and not logged: logs are kept.
 */
@Component
@ConditionalOnProperty("new-password-for")
class ForgottenPassword implements SmartInitializingSingleton {

  private final PasswordLinks links;
  private final String name;

  ForgottenPassword(PasswordLinks links, @Value("${new-password-for}") String name) {
    this.links = links;
    this.name = name;
  }

  @Override
  public void afterSingletonsInstantiated() {
    try {
      System.out.println(
          "At this server's address, "
              + links.make(name)
              + " sets a new password for "
              + name
              + ", once, within a day. Start it without this argument from now on.");
    } catch (NotThere nobody) {
      System.out.println("Nobody signs in here by the name of " + name + ": no link was made.");
    }
  }
}
