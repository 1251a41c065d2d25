package org.understock.service.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Reads revisions with the number of records that count as of each. */
@Component
class RevisionRows {
  private static final String REVISION =
      """
      select number, digest, created_at, note,
        (select count(*) from records where revision_from <= number and (revision_to is null or revision_to > number)) as records
      from revisions
      """;

  private final JdbcClient database;

  RevisionRows(JdbcClient database) {
    this.database = database;
  }

  /** Revisions after a number, newest first. */
  List<Revision> newerThan(long number) {
    return database
        .sql(REVISION + "where number > ? order by number desc")
        .param(number)
        .query(RevisionRows::revision)
        .list();
  }

  Optional<Revision> one(long number) {
    return database
        .sql(REVISION + "where number = ?")
        .param(number)
        .query(RevisionRows::revision)
        .optional();
  }

  private static Revision revision(ResultSet row, int index) throws SQLException {
    return new Revision(
        row.getLong("number"),
        row.getString("digest"),
        row.getObject("created_at", OffsetDateTime.class).toInstant(),
        row.getString("note"),
        row.getLong("records"));
  }
}
