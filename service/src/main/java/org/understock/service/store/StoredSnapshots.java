package org.understock.service.store;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.stereotype.Component;
import org.understock.advice.Adviser;
import org.understock.evidence.Problem;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.TraitBook;
import org.understock.migrations.Report;
import org.understock.migrations.StarterLoader;
import org.understock.migrations.StoredEvidence;

/** Loads the starter evidence into an empty database, compiles the latest revision at start, and older ones when asked. */
@Component
@DependsOnDatabaseInitialization
class StoredSnapshots implements Snapshots {
  private static final Logger LOG = LoggerFactory.getLogger(StoredSnapshots.class);

  /** A compiled revision takes some megabytes, and walking far back in history is rare. */
  private static final int OLDER_KEPT = 3;

  private final DataSource database;
  private final List<Revision> revisions;
  private final Snapshot latest;
  private final Cache<Long, Snapshot> older = Caffeine.newBuilder().maximumSize(OLDER_KEPT).build();

  StoredSnapshots(DataSource database, RevisionRows rows) throws SQLException {
    this.database = database;
    StarterLoader.loadIfEmpty(database).ifPresent(StoredSnapshots::tell);
    revisions = List.copyOf(rows.newestFirst());
    long begun = System.nanoTime();
    latest = compile(revisions.get(0));
    LOG.info("Revision {} compiled in {} ms: {} records, digest {}", latest.revision().number(), (System.nanoTime() - begun) / 1_000_000,
        latest.revision().records(), latest.revision().digest());
  }

  @Override
  public Snapshot latest() {
    return latest;
  }

  @Override
  public Optional<Snapshot> at(long number) {
    if (number == latest.revision().number()) return Optional.of(latest);
    return revisions.stream().filter(r -> r.number() == number).findFirst().map(r -> older.get(number, n -> compileLater(r)));
  }

  @Override
  public List<Revision> revisions() {
    return revisions;
  }

  private Snapshot compile(Revision revision) throws SQLException {
    TraitBook book = CompiledTraitBook.compile(revision.number(), StoredEvidence.read(database, revision.number()));
    return new Snapshot(book, Adviser.of(book), revision);
  }

  private Snapshot compileLater(Revision revision) {
    try {
      return compile(revision);
    } catch (SQLException e) {
      throw new DataAccessResourceFailureException("revision " + revision.number() + " can't be read", e);
    }
  }

  private static void tell(Report report) {
    LOG.info("Starter evidence loaded as revision 1: {}", report.details().strip());
    for (Problem problem : report.refused()) LOG.warn("Refused: {}", problem);
  }
}
