package org.understock.service.store;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.NativeQuery;
import org.springframework.data.repository.Repository;

/**
 * Reads revisions with the number of records that count as of each. In SQL: parsing these two
 * queries of JPA's own language took a fifth of the processor time of a start.
 */
interface RevisionRows extends Repository<RevisionRow, Long> {
  String REVISION =
      """
      select number, digest, created_at, note,
        (select count(*) from records where revision_from <= number and (revision_to is null or revision_to > number)) as records
      from revisions
      """;

  /** Revisions after a number, newest first. */
  @NativeQuery(
      value = REVISION + "where number > :number order by number desc",
      sqlResultSetMapping = RevisionRow.COUNTED)
  List<Revision> newerThan(long number);

  @NativeQuery(
      value = REVISION + "where number = :number",
      sqlResultSetMapping = RevisionRow.COUNTED)
  Optional<Revision> one(long number);
}
