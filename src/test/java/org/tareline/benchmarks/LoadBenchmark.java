package org.tareline.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.support.GenericApplicationContext;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.mvc.Controller;
import org.tareline.TarelineApplication;
import org.tareline.ledger.Member;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.Pages;
import org.tareline.testing.ServerProcess;
import org.tareline.testing.TestDatabase;

/**
 * What a club asks of one server on PostgreSQL, and what growth costs. The server runs in a process
 * of its own; whoever asks it shares the machine with it and with the database. Prints its figures
 * beside those of a page that says the same to everybody through the same stack, in the same run,
 * and asserts only that nothing was answered wrongly.
 */
@Tag("benchmark")
class LoadBenchmark {

  private static final int LEDGERS = Integer.getInteger("tareline.load.ledgers", 50);
  private static final int PARTS = Integer.getInteger("tareline.load.parts", 300);
  private static final int WEIGHINGS = Integer.getInteger("tareline.load.weighings", 5_000);
  private static final int CONNECTIONS = Integer.getInteger("tareline.load.connections", 4);
  private static final int SECONDS = Integer.getInteger("tareline.load.seconds", 20);
  private static final List<Kind> KINDS =
      Arrays.stream(Kind.values())
          .filter(
              kind ->
                  kind == Kind.CONSTANT
                      || Arrays.asList(
                              System.getProperty("tareline.load.kinds", kind.name()).split(","))
                          .contains(kind.name()))
          .toList();
  private static final int ROUNDS = 5;
  private static final int A_ROUND = 10;

  /**
   * Where two databases are to be, {@code small} and {@code large} behind this; those that are
   * there and filled serve again. Empty ones of the tests where it is not given.
   */
  private static final String URL = System.getProperty("tareline.load.url");

  /** The application, with one page more. */
  static final class Server {
    public static void main(String[] arguments) {
      new SpringApplicationBuilder(TarelineApplication.class)
          .initializers(
              context ->
                  ((GenericApplicationContext) context)
                      .registerBean("/constant", ConstantPage.class))
          .run(arguments);
    }
  }

  /** Says the same to everybody, behind the session, the member and the head of every page. */
  static final class ConstantPage implements Controller {
    @Override
    public ModelAndView handleRequest(HttpServletRequest request, HttpServletResponse response) {
      return new ModelAndView(
          "benchmarks/constant", "member", request.getAttribute(Member.class.getName()));
    }
  }

  /** Somebody who is signed in. */
  private record Maker(Pages pages, Api api) {}

  private interface Asking {
    Answer by(Maker maker, Random random);
  }

  private enum Kind {
    CONSTANT("constant page", 0, 200, (maker, random) -> maker.pages().get("/constant")),
    BENCH("bench", 25, 200, (maker, random) -> maker.pages().get("/")),
    PARTS_PAGE("parts page", 15, 200, (maker, random) -> maker.pages().get("/parts")),
    PART(
        "page of a part",
        15,
        200,
        (maker, random) -> maker.pages().get("/parts/{code}", code(random))),
    RIG("rig page", 20, 200, (maker, random) -> maker.pages().get("/rigs/RIG")),
    ROLL_UP("roll-up, JSON", 10, 200, (maker, random) -> maker.api().get("/rigs/RIG/roll-up")),
    WEIGHING(
        "weighing with a key, JSON",
        15,
        201,
        (maker, random) ->
            maker
                .api()
                .post(
                    "/weighings",
                    Map.of(
                        "part",
                        code(random),
                        "scale",
                        "K1",
                        "readings",
                        List.of(10 + random.nextInt(900) / 10.0 + " g"),
                        "key",
                        UUID.randomUUID().toString())));

    private final String words;
    private final int share;
    private final int expected;
    private final Asking asking;

    Kind(String words, int share, int expected, Asking asking) {
      this.words = words;
      this.share = share;
      this.expected = expected;
      this.asking = asking;
    }

    private static String code(Random random) {
      return String.format(Locale.ROOT, "P%05d", 1 + random.nextInt(PARTS));
    }
  }

  /** Nanoseconds of each answer, and how many were not what was asked for. */
  private static final class Times {
    private final List<Long> nanos = new ArrayList<>();
    private int errors;

    void add(Times others) {
      nanos.addAll(others.nanos);
      errors += others.errors;
    }

    double millis(double share) {
      long[] sorted = nanos.stream().mapToLong(each -> each).sorted().toArray();
      return sorted[(int) Math.min(sorted.length - 1, Math.floor(share * sorted.length))] / 1e6;
    }
  }

  /** A server on a database of its own. */
  private static final class Site implements AutoCloseable {
    private final Connection database;
    private final ServerProcess server;
    private final ProcessHandle postgres;

    Site(String name, Path folder) throws IOException, InterruptedException, SQLException {
      TestDatabase fresh =
          URL == null
              ? TestDatabase.fresh()
              : new TestDatabase(
                  URL + name,
                  System.getProperty("tareline.load.user", "postgres"),
                  System.getProperty("tareline.load.password", "postgres"));
      server =
          new ServerProcess(
              folder,
              Map.of(
                  "SPRING_DATASOURCE_URL",
                  fresh.url(),
                  "SPRING_DATASOURCE_USERNAME",
                  fresh.user(),
                  "SPRING_DATASOURCE_PASSWORD",
                  fresh.password()));
      server.start(Server.class, System.getProperty("tareline.load.jvm", "-Xmx512m").split(" "));
      server.awaitReady();
      database = DriverManager.getConnection(fresh.url(), fresh.user(), fresh.password());
      try (ResultSet found = database.createStatement().executeQuery("select pg_backend_pid()")) {
        found.next();
        // Its processes are seen only where it runs on this machine and not in a container.
        postgres =
            ProcessHandle.of(found.getLong(1))
                .filter(backend -> backend.info().command().orElse("").contains("postgres"))
                .flatMap(ProcessHandle::parent)
                .orElse(null);
      }
    }

    List<Maker> signIn(Club club) {
      return club.makers().stream()
          .map(
              name -> {
                Pages pages = server.pages();
                pages.signIn(name, Club.PASSWORD).expect(302);
                // As a browser does, once it has read the form.
                return new Maker(
                    pages.with("Accept-Encoding", "gzip"),
                    Api.at(server.address()).signedInAs(name, Club.PASSWORD));
              })
          .toList();
    }

    /** Seconds that the server has worked, and the database for it. */
    double[] worked() {
      return new double[] {
        seconds(Stream.of(server.handle())),
        postgres == null ? Double.NaN : seconds(postgres.descendants())
      };
    }

    private static double seconds(Stream<ProcessHandle> processes) {
      return processes
          .mapToDouble(
              each -> each.info().totalCpuDuration().orElse(Duration.ZERO).toMillis() / 1e3)
          .sum();
    }

    String memory() throws IOException {
      Path status = Path.of("/proc/" + server.handle().pid() + "/status");
      return Files.isReadable(status)
          ? Files.readAllLines(status).stream()
              .filter(line -> line.matches("Vm(HWM|RSS):.*"))
              .map(line -> line.replaceAll("\\s+", " "))
              .toList()
              .toString()
          : "not known here";
    }

    @Override
    public void close() throws SQLException {
      server.close();
      database.close();
    }
  }

  @TempDir private Path folder;

  @Test
  void a_club_on_one_server_and_what_growth_costs() throws Exception {
    assumeTrue(
        URL != null || TestDatabase.onPostgresql(),
        "Run it with -Dtareline.test.database=postgresql");
    try (Site small = new Site("small", folder);
        Site large = new Site("large", folder)) {
      List<Maker> few = fill(small, new Club("few", Math.max(1, LEDGERS / 10), PARTS, WEIGHINGS));
      List<Maker> many = fill(large, new Club("many", LEDGERS, PARTS, WEIGHINGS));
      List<Maker> grown =
          fill(large, new Club("grown", Math.max(1, LEDGERS / 100), 10 * PARTS, 10 * WEIGHINGS));
      mixed(few, SECONDS);
      mixed(many, SECONDS);
      growth(small, few, large, many, grown);
      load(large, many);
    }
  }

  private static List<Maker> fill(Site site, Club club) throws SQLException {
    long began = System.nanoTime();
    club.fill(site.database);
    List<Maker> makers = site.signIn(club);
    System.out.printf(
        Locale.ROOT, "%s: filled and signed in, %.0f s%n", club, (System.nanoTime() - began) / 1e9);
    return makers;
  }

  /** Each kind of page in turn by one who asks at a time, small, large and grown side by side. */
  private static void growth(
      Site small, List<Maker> few, Site large, List<Maker> many, List<Maker> grown) {
    System.out.println(
        "ten times the ledgers, and ten times the parts and weighings in a ledger: median, and work of"
            + " server and database for one, as multiples");
    for (Kind kind : KINDS) {
      List<Site> sites = List.of(small, large, large);
      List<List<Maker>> makers = List.of(few, many, grown);
      Times[] times = {new Times(), new Times(), new Times()};
      double[] work = new double[3];
      Random random = new Random(7);
      for (int round = -1; round < ROUNDS; round++) {
        for (int i = 0; i < 3; i++) {
          double before = Arrays.stream(sites.get(i).worked()).sum();
          Times now = new Times();
          for (int n = 0; n < A_ROUND; n++) {
            ask(kind, makers.get(i), random, now);
          }
          if (round >= 0) {
            work[i] += Arrays.stream(sites.get(i).worked()).sum() - before;
            times[i].add(now);
          }
        }
      }
      System.out.printf(
          Locale.ROOT,
          "  %-26s %6.1f ms %6.1f ms | ledgers ×10: %4.2f (work %4.2f) | data ×10: %4.2f (work %4.2f)%n",
          kind.words,
          times[0].millis(0.5),
          work[0] * 1e3 / ROUNDS / A_ROUND,
          times[1].millis(0.5) / times[0].millis(0.5),
          work[1] / work[0],
          times[2].millis(0.5) / times[1].millis(0.5),
          work[2] / work[1]);
    }
  }

  private static void load(Site site, List<Maker> makers) throws Exception {
    System.out.printf("%d connections, closed loop, %d s each%n", CONNECTIONS, SECONDS);
    double floor = 0;
    for (Kind kind : KINDS) {
      double[] before = site.worked();
      Times times = ask(makers, SECONDS, random -> kind).getOrDefault(kind, new Times());
      double[] after = site.worked();
      double rate = times.nanos.size() / (double) SECONDS;
      floor = kind == Kind.CONSTANT ? rate : floor;
      System.out.printf(
          Locale.ROOT,
          "  alone  %-26s %7.1f/s (%.3f of the constant page), p50 %.1f ms, p99 %.1f ms, %d errors,"
              + " work for one: server %.2f ms, database %.2f ms%n",
          kind.words,
          rate,
          rate / floor,
          times.millis(0.5),
          times.millis(0.99),
          times.errors,
          (after[0] - before[0]) * 1e3 / times.nanos.size(),
          (after[1] - before[1]) * 1e3 / times.nanos.size());
    }
    double[] before = site.worked();
    Map<Kind, Times> mixed = mixed(makers, SECONDS);
    double[] after = site.worked();
    Times all = new Times();
    mixed.forEach(
        (kind, times) -> {
          all.add(times);
          System.out.printf(
              Locale.ROOT,
              "  mixed  %-26s %7.1f/s, p50 %.1f ms, p99 %.1f ms, %d errors%n",
              kind.words,
              times.nanos.size() / (double) SECONDS,
              times.millis(0.5),
              times.millis(0.99),
              times.errors);
        });
    System.out.printf(
        Locale.ROOT,
        "  mixed  all: %.1f/s, p50 %.1f ms, p99 %.1f ms, %d errors; work for one: server %.2f ms,"
            + " database %.2f ms; memory of the server %s%n",
        all.nanos.size() / (double) SECONDS,
        all.millis(0.5),
        all.millis(0.99),
        all.errors,
        (after[0] - before[0]) * 1e3 / all.nanos.size(),
        (after[1] - before[1]) * 1e3 / all.nanos.size(),
        site.memory());
    assertThat(all.errors).isZero();
  }

  private static Map<Kind, Times> mixed(List<Maker> makers, int seconds) throws Exception {
    List<Kind> drawn = new ArrayList<>();
    for (Kind kind : KINDS) {
      for (int i = 0; i < kind.share; i++) {
        drawn.add(kind);
      }
    }
    return ask(makers, seconds, random -> drawn.get(random.nextInt(drawn.size())));
  }

  private interface Draw {
    Kind from(Random random);
  }

  /** As many at a time as there are connections, each asking anew once it is answered. */
  private static Map<Kind, Times> ask(List<Maker> makers, int seconds, Draw draw) throws Exception {
    ExecutorService atOnce = Executors.newFixedThreadPool(CONNECTIONS);
    long end = System.nanoTime() + Duration.ofSeconds(seconds).toNanos();
    List<Future<Map<Kind, Times>>> asking = new ArrayList<>();
    for (int i = 0; i < CONNECTIONS; i++) {
      Random random = new Random(i);
      // No two ask as the same maker.
      List<Maker> own = new ArrayList<>();
      for (int maker = i % makers.size(); maker < makers.size(); maker += CONNECTIONS) {
        own.add(makers.get(maker));
      }
      asking.add(
          atOnce.submit(
              () -> {
                Map<Kind, Times> times = new LinkedHashMap<>();
                while (System.nanoTime() < end) {
                  Kind kind = draw.from(random);
                  ask(kind, own, random, times.computeIfAbsent(kind, any -> new Times()));
                }
                return times;
              }));
    }
    Map<Kind, Times> all = new java.util.EnumMap<>(Kind.class);
    for (Future<Map<Kind, Times>> each : asking) {
      each.get().forEach((kind, times) -> all.computeIfAbsent(kind, any -> new Times()).add(times));
    }
    atOnce.shutdown();
    return all;
  }

  private static void ask(Kind kind, List<Maker> makers, Random random, Times times) {
    Maker maker = makers.get(random.nextInt(makers.size()));
    long began = System.nanoTime();
    int status;
    try {
      status = kind.asking.by(maker, random).status();
    } catch (AssertionError unanswered) {
      status = 0;
    }
    times.nanos.add(System.nanoTime() - began);
    if (status != kind.expected) {
      times.errors++;
    }
  }
}
