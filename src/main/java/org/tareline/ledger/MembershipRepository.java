package org.tareline.ledger;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface MembershipRepository extends Repository<Membership, Long> {

  Membership save(Membership membership);

  @Query(
      """
      select new org.tareline.ledger.Member(
          a.id, a.name, a.massStyle, l.id, l.name, l.settings, m.role)
      from Membership m, Account a, Ledger l
      where a.id = m.accountId and l.id = m.ledgerId and a.id = :accountId
      order by m.id
      """)
  List<Member> membersOf(long accountId, Limit limit);

  @Query(
      """
      select new org.tareline.ledger.Member(
          a.id, a.name, a.massStyle, l.id, l.name, l.settings, m.role)
      from Membership m, Account a, Ledger l
      where a.id = m.accountId and l.id = m.ledgerId and a.id = :accountId and l.uuid = :ledger
      """)
  Optional<Member> memberOf(long accountId, UUID ledger);
}
