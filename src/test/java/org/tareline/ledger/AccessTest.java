package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.http.server.PathContainer;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.mvc.method.RequestMappingInfo;
import org.springframework.web.servlet.mvc.method.RequestMappingInfoHandlerMapping;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** Every address there is, asked by everybody there can be, against the table of {@link Access}. */
@FeatureTest
class AccessTest {

  /** Not there in any ledger, so that nothing is done by asking. */
  private static final String NO_CODE = "no-such-code";

  private static final String NO_ID = "00000000-0000-0000-0000-000000000000";

  private TestServer server;
  private TestLedger ledger;
  private TestLedger editor;
  private TestLedger reader;
  private TestLedger other;

  record Route(String method, String path) {

    boolean isApi() {
      return path.startsWith("/api/");
    }

    boolean reads() {
      return method.equals("GET");
    }

    Access.Needs needs() {
      return Access.needs(method, PathContainer.parsePath(path));
    }
  }

  @BeforeEach
  void a_ledger_with_everybody_in_it(
      TestServer server,
      TestLedger ledger,
      TestLedger editor,
      TestLedger reader,
      TestLedger other) {
    this.server = server;
    this.ledger = ledger;
    this.editor = editor;
    this.reader = reader;
    this.other = other;
    join(editor, "editor");
    join(reader, "reader");
  }

  private void join(TestLedger guest, String role) {
    Members members = server.bean(Members.class);
    String path = members.invite(ledger.member(), role, null).path();
    members.accept(path.substring("/invitation/".length()), guest.member());
    Pages pages = guest.pages();
    pages.submit(pages.get("/account"), "form[action=/account/ledger]", "id", id()).expect(303);
  }

  private Set<Route> routes() {
    Set<Route> routes = new LinkedHashSet<>();
    Map<RequestMappingInfo, HandlerMethod> handlers = new LinkedHashMap<>();
    server
        .beans(RequestMappingInfoHandlerMapping.class)
        .forEach(mapping -> handlers.putAll(mapping.getHandlerMethods()));
    handlers
        .values()
        .removeIf(
            handler ->
                !handler.getBeanType().getName().matches("org\\.(tareline|.*\\.actuate)\\..*"));
    handlers.forEach(
        (mapping, handler) -> {
          for (String pattern : mapping.getPatternValues()) {
            for (RequestMethod method : mapping.getMethodsCondition().getMethods()) {
              routes.add(new Route(method.name(), filledIn(pattern)));
            }
          }
        });
    return routes;
  }

  private static String filledIn(String pattern) {
    return pattern
        .replace("/**", "/liveness")
        .replaceAll("\\{(id|uuid|line|weighing)\\}", NO_ID)
        .replaceAll("\\{[^}]+\\}", NO_CODE);
  }

  @Test
  void there_are_many_addresses_and_the_table_has_a_rule_that_is_used_for_each_need() {
    assertThat(routes()).hasSizeGreaterThan(100);
    for (Access.Needs needs : Access.Needs.values()) {
      assertThat(routes().stream().map(Route::needs)).as(needs.name()).contains(needs);
    }
  }

  @Test
  void a_stranger_is_asked_to_sign_in_everywhere_but_where_nothing_is_needed() {
    assertThat(letIn(server.api(), server.pages(), NO_CODE)).isEmpty();
  }

  @Test
  void whoever_has_a_link_to_a_page_sees_that_page_and_is_a_stranger_everywhere_else() {
    ledger.api().post("/parts", "{\"code\":\"MINE\",\"name\":\"Mine\"}").expect(201);
    String line = "{\"code\":\"MINE\",\"name\":\"Mine\",\"lines\":[{\"part\":\"MINE\"%s}]}";
    ledger.api().post("/rigs", line.formatted(",\"role\":\"body\"")).expect(201);
    ledger.api().post("/trips", line.formatted("")).expect(201);
    for (String page : List.of("/rigs/MINE/statement", "/trips/MINE/packing-list")) {
      Answer made = ledger.api().post("/share-links", Map.of("page", page)).expect(201);
      String path = URI.create(made.json().path("link").asString()).getPath();
      Pages guest = server.pages();
      assertThat(guest.get(path).expect(200).headers("Set-Cookie")).isEmpty();

      String secret = path.substring("/shared/".length());
      assertThat(letIn(server.api().with("Authorization", "Bearer " + secret), guest, "MINE"))
          .as(page)
          .isEmpty();
      assertThat(letIn(server.api().with("X-Ledger", id()), guest, "MINE")).as(page).isEmpty();
      for (String behind : List.of("/", page, "/rigs/MINE", "/..%2Fparts", "/checks")) {
        assertThat(guest.get(path + behind).status()).as(behind).isGreaterThanOrEqualTo(300);
      }
    }
  }

  private String id() {
    return ledger.member().ledger().toString();
  }

  /**
   * The routes that let somebody in who has not signed in, where something is needed, or do not
   * where nothing is.
   */
  private List<String> letIn(Api api, Pages pages, String code) {
    List<String> wrong = new ArrayList<>();
    String csrf = csrf(pages.get("/sign-in"));
    for (Route route : routes()) {
      Route asked = new Route(route.method(), route.path().replace(NO_CODE, code));
      Answer answer = ask(api, pages, csrf, asked);
      boolean turnedAway =
          asked.isApi()
              ? answer.status() == 401
              : answer.status() == 302
                  && String.valueOf(answer.header("Location")).endsWith("/sign-in");
      boolean open = asked.needs() == Access.Needs.NOTHING;
      // Whoever has an account already is not shown the first visit.
      if (turnedAway == open && !asked.path().equals("/first-visit")) {
        wrong.add(asked + " answered " + answer.status());
      }
    }
    return wrong;
  }

  @Test
  void a_reader_may_do_nothing_but_look() {
    refusesExactly(reader, MemberRole.READER);
  }

  @Test
  void an_editor_may_do_all_but_what_is_the_owners() {
    refusesExactly(editor, MemberRole.EDITOR);
  }

  @Test
  void an_owner_is_refused_nothing_but_what_is_the_servers() {
    refusesExactly(ledger, MemberRole.OWNER);
  }

  /** 403 where the table wants more than the role, and anything but 401 and 403 elsewhere. */
  private void refusesExactly(TestLedger who, MemberRole role) {
    List<String> wrong = new ArrayList<>();
    Api api = who.api().with("X-Ledger", id());
    Pages pages = who.pages();
    String csrf = csrf(pages.get("/account"));
    boolean first = server.bean(Accounts.class).madeFirst(who.member());
    for (Route route : routes()) {
      if (route.path().startsWith("/sign-") || route.path().equals("/account/password")) {
        continue;
      }
      Answer answer = ask(api, pages, csrf, route);
      boolean refused = answer.status() == 403;
      if (refused == route.needs().metBy(role, false, () -> first) || answer.status() == 401) {
        wrong.add(route + " needs " + route.needs() + " and answered " + answer.status());
      }
      if (answer.status() >= 500) {
        wrong.add(route + " broke: " + answer.status());
      }
    }
    assertThat(wrong).isEmpty();
  }

  @Test
  void what_is_anothers_is_not_there_rather_than_forbidden() {
    Api own = ledger.api();
    own.post("/parts", "{\"code\":\"MINE\",\"name\":\"Mine\"}").expect(201);
    own.post(
            "/materials",
            "{\"code\":\"MINE\",\"name\":\"Mine\",\"kind\":\"other\",\"nominal\":\"5 g\"}")
        .expect(201);
    own.post(
            "/scales",
            "{\"code\":\"MINE\",\"name\":\"Mine\",\"readability\":\"1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    own.post("/rigs", "{\"code\":\"MINE\",\"name\":\"Mine\",\"lines\":[]}");
    own.post("/trips", "{\"code\":\"MINE\",\"name\":\"Mine\",\"lines\":[]}");
    int found = 0;
    for (Route route : routes()) {
      if (!route.reads() || !route.path().contains(NO_CODE)) {
        continue;
      }
      String path = route.path().replace(NO_CODE, "MINE");
      Answer ours =
          route.isApi() ? own.get(path.substring("/api/v1".length())) : ledger.pages().get(path);
      Answer theirs =
          route.isApi()
              ? other.api().get(path.substring("/api/v1".length()))
              : other.pages().get(path);
      if (ours.status() == 200) {
        found++;
        assertThat(theirs.status()).as(path).isEqualTo(404);
      }
    }
    assertThat(found).isGreaterThan(15);
  }

  private static String csrf(Answer page) {
    return page.expect(200).page().select("input[name=_csrf]").get(0).val();
  }

  private static Answer ask(Api api, Pages pages, String csrf, Route route) {
    if (!route.isApi()) {
      return route.reads() ? pages.get(route.path()) : pages.forge(route.path(), "_csrf", csrf);
    }
    String path = route.path().substring("/api/v1".length());
    return switch (route.method()) {
      case "GET" -> api.get(path);
      case "POST" -> api.post(path, Map.of());
      case "PUT" -> api.put(path, Map.of());
      case "DELETE" -> api.delete(path);
      default -> throw new AssertionError("no way to ask by " + route.method());
    };
  }
}
