package org.understock.service.store;

import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Tells what a revision changed. Reads the database; a revision never changes, so the answer may be
 * kept.
 */
@Component
public class RevisionChanges {
  /** Most ids that are listed of each kind. */
  public static final int LISTED = 100;

  private final JdbcClient database;

  RevisionChanges(JdbcClient database) {
    this.database = database;
  }

  /**
   * Things of one kind.
   *
   * @param count how many there are
   * @param ids of the first {@value #LISTED}, in their order
   */
  public record Named(long count, List<String> ids) {}

  /** What came to count in a revision, what counts no longer, and what is new in the catalogue. */
  public record Changes(
      Named accepted,
      Named withdrawn,
      Named superseded,
      Named sources,
      Named stocks,
      Named varieties) {}

  @Transactional(readOnly = true)
  public Changes of(long revision) {
    return new Changes(
        named("records where revision_from = :revision", revision),
        named("records where revision_to = :revision and status = 'withdrawn'", revision),
        named("records where revision_to = :revision and status = 'superseded'", revision),
        named("sources where since_revision = :revision", revision),
        named("stocks where since_revision = :revision", revision),
        named("varieties where since_revision = :revision", revision));
  }

  private Named named(String what, long revision) {
    long count =
        database
            .sql("select count(*) from " + what)
            .param("revision", revision)
            .query(Long.class)
            .single();
    List<String> ids =
        count == 0
            ? List.of()
            : database
                .sql("select id from " + what + " order by id limit " + LISTED)
                .param("revision", revision)
                .query(String.class)
                .list();
    return new Named(count, ids);
  }
}
