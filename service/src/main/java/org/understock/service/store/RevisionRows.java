package org.understock.service.store;

import java.util.List;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

/** Reads revisions with the number of records that count as of each. */
interface RevisionRows extends Repository<RevisionRow, Long> {
  @Query("""
      select new org.understock.service.store.Revision(r.number, r.digest, r.createdAt, r.note,
        (select count(x) from RecordRow x where x.revisionFrom <= r.number and (x.revisionTo is null or x.revisionTo > r.number)))
      from RevisionRow r order by r.number desc""")
  List<Revision> newestFirst();
}
