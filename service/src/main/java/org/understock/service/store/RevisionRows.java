package org.understock.service.store;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

/** Reads revisions with the number of records that count as of each. */
interface RevisionRows extends Repository<RevisionRow, Long> {
  String REVISION =
      """
      select new org.understock.service.store.Revision(r.number, r.digest, r.createdAt, r.note,
        (select count(x) from RecordRow x where x.revisionFrom <= r.number and (x.revisionTo is null or x.revisionTo > r.number)))
      from RevisionRow r
      """;

  /** Revisions after a number, newest first. */
  @Query(REVISION + "where r.number > :number order by r.number desc")
  List<Revision> newerThan(long number);

  @Query(REVISION + "where r.number = :number")
  Optional<Revision> one(long number);
}
