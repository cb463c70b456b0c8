package org.tareline.ledger;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface ShareLinkRepository extends Repository<ShareLink, Long> {

  ShareLink save(ShareLink link);

  @Query(
      "select s from ShareLink s where s.ledgerId = :ledgerId and s.revokedAt is null order by s.id desc")
  List<ShareLink> open(long ledgerId);

  @Query(
      "select s from ShareLink s where s.ledgerId = :ledgerId and s.uuid = :uuid and s.revokedAt is null")
  Optional<ShareLink> one(long ledgerId, UUID uuid);

  /** What a link shows, and as whom: with masses in the style of who made it. */
  @Query(
      """
      select new org.tareline.ledger.ShareLinks$Opened(
          new org.tareline.ledger.Member(
              a.id, a.name, a.massStyle, l.id, l.uuid, l.name, l.settings, org.tareline.ledger.MemberRole.GUEST),
          s.page)
      from ShareLink s, Account a, Ledger l
      where s.secretHash = :secretHash and s.revokedAt is null and a.id = s.madeBy and l.id = s.ledgerId
      """)
  Optional<ShareLinks.Opened> opened(String secretHash);
}
