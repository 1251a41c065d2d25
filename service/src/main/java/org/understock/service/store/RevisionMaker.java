package org.understock.service.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import javax.sql.DataSource;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.migrations.StoredEvidence;

/**
 * Makes revisions, inside the transaction of the review that asks for them. The revision is
 * compiled before the commit, so that evidence which can't be compiled never counts, and served
 * from the commit on; other replicas are told by the database itself.
 */
@Component
@Transactional(propagation = Propagation.MANDATORY)
public class RevisionMaker {
  private final JdbcTemplate database;
  private final StoredSnapshots snapshots;

  RevisionMaker(DataSource dataSource, StoredSnapshots snapshots) {
    this.database = new JdbcTemplate(dataSource);
    this.snapshots = snapshots;
  }

  /**
   * Waits until no other transaction makes a revision, and keeps others waiting until this one
   * ends.
   */
  public void waitForTurn() {
    database.query("select pg_advisory_xact_lock(hashtext('understock.revisions'))", row -> {});
  }

  /**
   * The latest revision in the database, as this transaction sees it; call {@link #waitForTurn}
   * first.
   */
  public Revision latest() {
    Long number = database.queryForObject("select max(number) from revisions", Long.class);
    if (number == null) throw new IllegalStateException("the database has no revision");
    return snapshots.read(number);
  }

  /**
   * Makes a revision of what the records and the catalogue say by now.
   *
   * @param number the number after the latest, which the records' {@code revision_from} and {@code
   *     revision_to} bear already
   * @param note why it is made
   * @param actor who makes it
   */
  public Revision make(long number, String note, String actor) {
    Revision previous = latest();
    Evidence evidence = on(connection -> StoredEvidence.read(connection, number));
    String digest =
        Canonical.digest(
            previous.digest(),
            evidence,
            on(connection -> StoredEvidence.orderings(connection, number)));
    // The clock, not the transaction's beginning: who waited for a turn must not date a revision
    // before the one that was waited for.
    database.update(
        "insert into revisions (number, digest, previous_digest, note, created_by, created_at) values (?, ?, ?, ?, ?, clock_timestamp())",
        number,
        digest,
        previous.digest(),
        note,
        actor);
    Revision revision = snapshots.read(number);
    Snapshot snapshot = snapshots.compile(revision, evidence);
    List<Revision> newer =
        snapshots
            .newer(); // others may have made some in between that this process does not serve yet
    database.query(
        "select pg_notify(?, ?)", row -> {}, RevisionWatch.CHANNEL, String.valueOf(number));
    TransactionSynchronizationManager.registerSynchronization(
        new TransactionSynchronization() {
          @Override
          public void afterCommit() {
            snapshots.serve(snapshot, newer);
          }
        });
    return revision;
  }

  private interface Work<T> {
    T on(Connection connection) throws SQLException;
  }

  private <T> T on(Work<T> work) {
    T result = database.execute((ConnectionCallback<T>) work::on);
    if (result == null) throw new IllegalStateException("nothing was read");
    return result;
  }
}
