package org.tareline.exchange.api;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.exchange.ServerBackups;

/**
 * Backups of the server. Each holds every ledger on it, so none is handed out: they are listed and
 * made.
 */
@RestController
@RequestMapping("/api/v1/backups")
class BackupsResource {

  /**
   * How the backups stand.
   *
   * @param database what it is where it is backed up by its own tools, such as PostgreSQL; null
   *     where it is the embedded one
   * @param every ISO 8601; {@code PT0S} where none is made by itself
   */
  record BackupsJson(
      @Nullable String database,
      String folder,
      String every,
      int keep,
      @Nullable FailureJson lastFailure,
      List<ServerBackups.Kept> items) {}

  /** What kept the last one from being made. */
  record FailureJson(Instant at, String detail) {}

  private final ServerBackups backups;

  BackupsResource(ServerBackups backups) {
    this.backups = backups;
  }

  @GetMapping
  BackupsJson all() {
    ServerBackups.Standing standing = backups.standing();
    Duration every = standing.every();
    ServerBackups.Failure failure = standing.failure();
    return new BackupsJson(
        standing.database(),
        standing.folder().toString(),
        every.toString(),
        standing.most(),
        failure == null ? null : new FailureJson(failure.at(), failure.words()),
        standing.kept());
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  ServerBackups.Kept make() {
    return backups.make();
  }

  /** Reads one to its end once more, and says how that went. */
  @PostMapping("/{name}/read")
  ServerBackups.Kept read(@PathVariable String name) {
    return backups.read(name);
  }
}
