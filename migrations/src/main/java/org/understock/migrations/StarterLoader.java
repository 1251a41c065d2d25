package org.understock.migrations;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;
import javax.sql.DataSource;
import org.understock.evidence.Canonical;

/** Puts the starter evidence into an empty database as revision 1. */
public final class StarterLoader {
  /** Who is named as having proposed the starter evidence. */
  public static final String ACTOR = "starter-evidence";

  private StarterLoader() {}

  /**
   * Loads revision 1 when there is no revision yet, in one transaction: either all of it is there
   * afterwards or none. When several processes start on one database at once, one loads and the
   * others wait for it.
   *
   * @return what was loaded and refused; empty when the database already had a revision
   * @throws SQLException when the database refuses or can't be reached; nothing is loaded then
   */
  public static Optional<Report> loadIfEmpty(DataSource database) throws SQLException {
    return loadIfEmpty(database, true);
  }

  /**
   * As {@link #loadIfEmpty(DataSource)}, or only what evidence is told in: crops and traits.
   *
   * @param statements whether to load the sources, plants and statements too; without them the
   *     store waits for evidence of its own
   */
  public static Optional<Report> loadIfEmpty(DataSource database, boolean statements)
      throws SQLException {
    try (Connection connection = database.getConnection()) {
      boolean autoCommit = connection.getAutoCommit();
      connection.setAutoCommit(false);
      try {
        Optional<Report> report = loadIfEmpty(connection, statements);
        connection.commit();
        return report;
      } catch (SQLException | RuntimeException e) {
        connection.rollback();
        throw e;
      } finally {
        connection.setAutoCommit(autoCommit);
      }
    }
  }

  private static Optional<Report> loadIfEmpty(Connection connection, boolean statements)
      throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute("select pg_advisory_xact_lock(hashtext('understock.starter'))");
      try (ResultSet rows = statement.executeQuery("select exists (select from revisions)")) {
        rows.next();
        if (rows.getBoolean(1)) return Optional.empty();
      }
    }
    StarterEvidence starter =
        statements ? StarterEvidence.read() : StarterEvidence.read().withoutStatements();
    revision(
        connection,
        Canonical.digest("", starter.evidence(), starter.orderings()),
        starter.report().summary());
    EvidenceWriter writer = EvidenceWriter.accepted(connection, 1, ACTOR);
    writer.crops(starter.species());
    writer.traits(starter.evidence().traits());
    writer.plants(starter.evidence().plants().stocks(), starter.evidence().plants().varieties());
    writer.sources(
        starter.evidence().sources().values().stream()
            .sorted(java.util.Comparator.comparing(s -> s.id()))
            .toList());
    writer.orderings(starter.orderings());
    writer.records(
        starter.evidence().records().stream().map(r -> new EvidenceWriter.Filed(r, null)).toList(),
        starter.evidence().traits());
    return Optional.of(starter.report());
  }

  private static void revision(Connection connection, String digest, String summary)
      throws SQLException {
    try (PreparedStatement revision =
            connection.prepareStatement(
                "insert into revisions (number, digest, note, created_by) values (1, ?, ?, ?)");
        PreparedStatement audit =
            connection.prepareStatement(
                "insert into audit (actor, action, subject, revision, detail) values (?, 'load', 'revision 1', 1, ?)")) {
      revision.setString(1, digest);
      revision.setString(2, "Starter evidence: " + summary);
      revision.setString(3, ACTOR);
      revision.executeUpdate();
      audit.setString(1, ACTOR);
      audit.setString(2, summary);
      audit.executeUpdate();
    }
  }
}
