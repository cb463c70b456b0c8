package org.tareline.exchange.web;

import java.io.File;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.system.ApplicationHome;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.exchange.Restoring;
import org.tareline.exchange.ServerBackups;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** The page of the server's backups. */
@Controller
class BackupsController {

  /**
   * The page.
   *
   * @param database what it is where it is backed up by its own tools; null where from here
   * @param schedule when one is made, as a sentence
   * @param failure what kept the last one from being made, as a sentence; null where nothing did
   * @param restore the command that puts the newest back
   */
  record BackupsPage(
      @Nullable String database,
      String folder,
      String schedule,
      int most,
      @Nullable String failure,
      List<Row> rows,
      String restore) {}

  /** A backup in one line. */
  record Row(String name, String made, String size, String read, @Nullable String damage) {}

  private final ServerBackups backups;
  private final Moments moments;
  private final Clock clock;

  BackupsController(ServerBackups backups, Moments moments, Clock clock) {
    this.backups = backups;
    this.moments = moments;
    this.clock = clock;
  }

  @GetMapping("/exchange/backups")
  String all(Model model) {
    model.addAttribute("page", page(backups.standing()));
    return "exchange/backups";
  }

  @PostMapping("/exchange/backups")
  Object make(Model model, RedirectAttributes flash) {
    try {
      ServerBackups.Kept made = backups.make();
      flash.addFlashAttribute(
          "done", made.name() + " was made and read back: " + size(made.bytes()) + " MB.");
      return SeeOther.page("/exchange/backups");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return all(model);
    }
  }

  @PostMapping("/exchange/backups/{name}/read")
  Object read(@PathVariable String name, Model model, RedirectAttributes flash) {
    ServerBackups.Kept kept = backups.read(name);
    if (kept.damage() == null) {
      flash.addFlashAttribute("done", name + " was read to its end, and is good.");
      return SeeOther.page("/exchange/backups");
    }
    model.addAttribute(
        "faults", List.of(new Refusal.Fault("", name + " is not good: " + kept.damage())));
    return all(model);
  }

  private BackupsPage page(ServerBackups.Standing standing) {
    ServerBackups.Failure failure = standing.failure();
    return new BackupsPage(
        standing.database(),
        standing.folder().toString(),
        schedule(standing),
        standing.most(),
        failure == null ? null : moments.minute(failure.at()) + ": " + failure.words(),
        standing.kept().stream()
            .map(
                kept ->
                    new Row(
                        kept.name(),
                        moments.minute(kept.madeAt()),
                        size(kept.bytes()),
                        moments.minute(kept.readAt()),
                        kept.damage()))
            .toList(),
        restore(standing.kept().isEmpty() ? "newest" : standing.kept().get(0).name()));
  }

  /** As this server was started itself: from its jar, or by Maven. */
  private static String restore(String backup) {
    File started = new ApplicationHome(BackupsController.class).getSource();
    String argument = "--" + Restoring.OPTION + "=" + backup;
    return started != null && started.getName().endsWith(".jar")
        ? "java -jar " + started.getName() + " " + argument
        : "mvn spring-boot:run -Dspring-boot.run.arguments=" + argument;
  }

  private String schedule(ServerBackups.Standing standing) {
    Duration every = standing.every();
    if (every.isZero()) {
      return "None is made by itself: TARELINE_BACKUP_EVERY is zero.";
    }
    Instant due =
        standing.kept().isEmpty() ? clock.instant() : standing.kept().get(0).madeAt().plus(every);
    return "One is made by itself every "
        + words(every)
        + " while the server runs; the next is due "
        + (due.isAfter(clock.instant()) ? "on " + moments.minute(due) : "now, within ten minutes")
        + ".";
  }

  private static String words(Duration every) {
    return every.toMinutes() % 60 == 0
        ? every.toHours() + (every.toHours() == 1 ? " hour" : " hours")
        : every.toMinutes() + " minutes";
  }

  /** Megabytes (of a million bytes) to a tenth, and never 0.0 of something. */
  private static String size(long bytes) {
    return BigDecimal.valueOf(bytes).movePointLeft(6).setScale(1, RoundingMode.UP).toPlainString();
  }
}
