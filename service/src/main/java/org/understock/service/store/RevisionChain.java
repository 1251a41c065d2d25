package org.understock.service.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import org.understock.evidence.Canonical;
import org.understock.migrations.StoredEvidence;

/** Proves that history is what it was: computes every revision's digest again. */
@Component
public class RevisionChain {
  private final JdbcTemplate database;

  RevisionChain(DataSource dataSource) {
    this.database = new JdbcTemplate(dataSource);
  }

  /**
   * What came of it.
   *
   * @param revisions how many were computed again
   * @param firstBroken the first revision whose content does not give its digest, or null
   * @param digest of the latest revision, as stored
   */
  public record Verdict(int revisions, @Nullable Long firstBroken, String digest) {}

  private record Link(long number, String digest) {}

  /**
   * Reads everything as of every revision, as one moment shows it; takes about a tenth of a second
   * a revision.
   */
  @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
  public Verdict verify() {
    List<Link> links =
        database.query(
            "select number, digest from revisions order by number",
            (r, n) -> new Link(r.getLong(1), r.getString(2)));
    String previous = "";
    Long firstBroken = null;
    for (int i = 0; i < links.size(); i++) {
      Link link = links.get(i);
      if (firstBroken == null
          && (link.number() != i + 1 || !digest(previous, link.number()).equals(link.digest())))
        firstBroken = link.number();
      previous = link.digest();
    }
    return new Verdict(links.size(), firstBroken, previous);
  }

  private String digest(String previous, long number) {
    String digest =
        database.execute(
            (ConnectionCallback<String>) connection -> digest(connection, previous, number));
    return digest == null ? "" : digest;
  }

  private static String digest(Connection connection, String previous, long number)
      throws SQLException {
    return Canonical.digest(
        previous,
        StoredEvidence.read(connection, number),
        StoredEvidence.orderings(connection, number));
  }
}
