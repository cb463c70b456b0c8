package org.tareline.testing;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;

/** A fresh account with an empty ledger of its own. */
public final class TestLedger {

  private final TestServer server;
  private final Member member;
  private final String name;
  private final String password;
  private @Nullable Pages pages;

  TestLedger(TestServer server, Member member, String name, String password) {
    this.server = server;
    this.member = member;
    this.name = name;
    this.password = password;
  }

  /** The account's API, signed in by HTTP Basic. */
  public Api api() {
    return server.api(name, password);
  }

  /** The account's browser, signed in by the form at its first use. */
  public Pages pages() {
    Pages signedIn = pages;
    if (signedIn == null) {
      signedIn = openBrowser();
      pages = signedIn;
    }
    return signedIn;
  }

  /** Another browser of the account's, signed in by the form. */
  public Pages openBrowser() {
    Pages browser = server.pages();
    browser.signIn(name, password).expect(302);
    return browser;
  }

  public TestServer server() {
    return server;
  }

  /** The owner, for calling a service directly. */
  public Member member() {
    return member;
  }

  public String name() {
    return name;
  }

  public String password() {
    return password;
  }

  /** The SQL statements that the server runs while something is done to it. */
  public List<String> statements(Statements.Doing doing) {
    return server.statements(doing);
  }
}
