package org.tareline.ledger;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface MembershipRepository extends Repository<Membership, Long> {

  Membership save(Membership membership);

  void delete(Membership membership);

  void flush();

  /** The ledgers of an account, the one it joined first in front. */
  @Query(
      """
      select new org.tareline.ledger.Member(
          a.id, a.name, a.massStyle, l.id, l.uuid, l.name, l.settings, m.role)
      from Membership m, Account a, Ledger l
      where a.id = m.accountId and l.id = m.ledgerId and a.id = :accountId and a.passwordHash = :passwordHash
      order by m.id
      """)
  List<Member> membersOf(long accountId, String passwordHash, Limit limit);

  @Query(
      """
      select new org.tareline.ledger.Member(
          a.id, a.name, a.massStyle, l.id, l.uuid, l.name, l.settings, m.role)
      from Membership m, Account a, Ledger l
      where a.id = m.accountId and l.id = m.ledgerId and a.id = :accountId and a.passwordHash = :passwordHash
        and l.uuid = :ledger
      """)
  Optional<Member> memberOf(long accountId, String passwordHash, UUID ledger);

  @Query(
      """
      select new org.tareline.ledger.Accounts$Standing(l.uuid, l.name, m.role)
      from Membership m, Ledger l
      where l.id = m.ledgerId and m.accountId = :accountId
      order by m.id
      """)
  List<Accounts.Standing> standings(long accountId);

  @Query(
      """
      select new org.tareline.ledger.Members$Listed(a.uuid, a.name, m.role, m.joinedAt)
      from Membership m, Account a
      where a.id = m.accountId and m.ledgerId = :ledgerId
      order by m.id
      """)
  List<Members.Listed> everybody(long ledgerId);

  /** By the id of the account. */
  @Query(
      """
      select m from Membership m, Account a
      where a.id = m.accountId and m.ledgerId = :ledgerId and a.uuid = :account
      """)
  Optional<Membership> one(long ledgerId, UUID account);

  @Query("select m from Membership m where m.ledgerId = :ledgerId and m.accountId = :accountId")
  Optional<Membership> of(long ledgerId, long accountId);

  @Query(
      """
      select count(m) from Membership m
      where m.ledgerId = :ledgerId and m.role = org.tareline.ledger.MemberRole.OWNER
      """)
  long owners(long ledgerId);

  @Query("select count(m) from Membership m where m.accountId = :accountId")
  long ofAccount(long accountId);
}
