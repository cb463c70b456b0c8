package org.tareline.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;

/** Links that show one page of a ledger, and no other, to whoever has them. */
@Service
public class ShareLinks {

  private static final int LONGEST_TITLE = 300;

  /** A link as it is shown afterwards. */
  public record Kept(UUID id, String page, String title, Instant madeAt) {

    static Kept of(ShareLink link) {
      return new Kept(link.uuid(), link.page(), link.title(), link.madeAt());
    }
  }

  /**
   * A link just made.
   *
   * @param path where it leads; the one time that it is there
   */
  public record Made(Kept link, String path) {}

  /** What whoever opens a link is shown, and as whom. */
  public record Opened(Member guest, String page) {}

  private final ShareLinkRepository links;
  private final List<SharedPage> pages;
  private final Clock clock;

  ShareLinks(ShareLinkRepository links, List<SharedPage> pages, Clock clock) {
    this.links = links;
    this.pages = pages;
    this.clock = clock;
  }

  /** Those that still show something, newest first. */
  @Transactional(readOnly = true)
  public List<Kept> of(Member member) {
    return links.open(member.ledgerId()).stream().map(Kept::of).toList();
  }

  /**
   * Makes a link that shows a page.
   *
   * @throws org.tareline.site.Refusal if it is no page that may be shown like this
   * @throws NotThere if the thing that it would show is not in the ledger
   */
  @Transactional
  public Made make(Member member, @Nullable String page) {
    Faults faults = new Faults();
    String read = faults.text("page", page, "a page, such as /rigs/CODE/statement", 500);
    Optional<String> title =
        pages.stream().flatMap(shared -> shared.title(member, read).stream()).findFirst();
    if (faults.none() && title.isEmpty()) {
      faults.add(
          "page",
          "Give the page of a rig's weight statement or of a trip's packing list, such as"
              + " /rigs/CODE/statement; no other is shown by a link.");
    }
    faults.refuseIfAny();
    String words = title.orElseThrow();
    Secret secret = Secret.fresh();
    ShareLink link =
        links.save(
            new ShareLink(
                member,
                read,
                words.length() > LONGEST_TITLE ? words.substring(0, LONGEST_TITLE) : words,
                secret,
                clock.instant().truncatedTo(ChronoUnit.MICROS)));
    return new Made(Kept.of(link), "/shared/" + secret.text());
  }

  /**
   * Takes a link back: from now on it shows nothing.
   *
   * @throws NotThere if the ledger has no such link
   */
  @Transactional
  public void revoke(Member member, UUID id) {
    links
        .one(member.ledgerId(), id)
        .orElseThrow(() -> new NotThere("link"))
        .revoke(clock.instant().truncatedTo(ChronoUnit.MICROS));
  }

  /**
   * What a link shows.
   *
   * @throws NotThere if there is no such link, or it was taken back
   */
  @Transactional(readOnly = true)
  public Opened open(String secret) {
    return links.opened(Secret.hash(secret)).orElseThrow(() -> new NotThere("link"));
  }
}
