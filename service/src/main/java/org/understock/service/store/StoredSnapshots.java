package org.understock.service.store;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.SmartInitializingSingleton;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.stereotype.Component;
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Evidence;
import org.understock.evidence.Problem;
import org.understock.evidence.TraitBook;
import org.understock.migrations.Report;
import org.understock.migrations.StarterLoader;
import org.understock.migrations.StoredEvidence;

/**
 * Loads the starter evidence into an empty database, holds the latest revision compiled, and
 * compiles older ones when asked.
 */
@Component
@DependsOnDatabaseInitialization
class StoredSnapshots implements Snapshots, SmartInitializingSingleton {
  private static final Logger LOG = LoggerFactory.getLogger(StoredSnapshots.class);

  /** A compiled revision takes some megabytes, and walking far back in history is rare. */
  private static final int OLDER_KEPT = 3;

  private final DataSource database;
  private final RevisionRows rows;
  private final Cache<Long, Snapshot> older = Caffeine.newBuilder().maximumSize(OLDER_KEPT).build();

  /** Compiled beside the rest of the start, which does not need it. */
  private final CompletableFuture<State> first;

  private volatile @Nullable State later;

  /**
   * What is served: one reference, so that a request sees the list and the snapshot of one moment.
   */
  private record State(Snapshot latest, List<Revision> newestFirst) {}

  StoredSnapshots(
      DataSource database,
      RevisionRows rows,
      @Value("${understock.starter-evidence:true}") boolean starter)
      throws SQLException {
    this.database = database;
    this.rows = rows;
    StarterLoader.loadIfEmpty(database, starter).ifPresent(StoredSnapshots::tell);
    List<Revision> revisions = List.copyOf(rows.newerThan(0));
    first =
        CompletableFuture.supplyAsync(
            () -> new State(load(revisions.get(0), null), revisions), StoredSnapshots::beside);
  }

  /** On a thread of its own: those of the common pool don't see the classes of a jar in a jar. */
  private static void beside(Runnable task) {
    Thread thread = new Thread(task, "first-revision");
    thread.setDaemon(true);
    thread.start();
  }

  /** The start ends here when the evidence can't be read; no request is taken before. */
  @Override
  public void afterSingletonsInstantiated() {
    try {
      first.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) throw cause;
      throw e;
    }
  }

  private State state() {
    State now = later;
    return now == null ? first.join() : now;
  }

  @Override
  public Snapshot latest() {
    return state().latest();
  }

  @Override
  public Optional<Snapshot> at(long number) {
    State now = state();
    if (number == now.latest().revision().number()) return Optional.of(now.latest());
    return now.newestFirst().stream()
        .filter(r -> r.number() == number)
        .findFirst()
        .map(r -> older.get(number, n -> load(r, now.latest())));
  }

  @Override
  public List<Revision> revisions() {
    return state().newestFirst();
  }

  /** Catches up with the database, if it has a newer revision. */
  void catchUp() {
    List<Revision> newer = newer();
    if (!newer.isEmpty()) serve(load(newer.get(0), latest()), newer);
  }

  /**
   * Revisions after the one that is served, newest first, as the caller's transaction sees them.
   */
  List<Revision> newer() {
    return rows.newerThan(latest().revision().number());
  }

  /**
   * Serves a revision, unless a later one is served already. Asks the database nothing and waits
   * for nobody who does: a review that is committed must not fail or linger here.
   *
   * @param newer all revisions up to this one that may not be served yet, newest first
   */
  synchronized void serve(Snapshot made, List<Revision> newer) {
    long served = latest().revision().number();
    if (made.revision().number() <= served) return;
    List<Revision> all = new ArrayList<>(newer.stream().filter(r -> r.number() > served).toList());
    all.addAll(state().newestFirst());
    older.put(
        served,
        state()
            .latest()); // the answers that were just given are the likeliest to be asked for again
    later = new State(made, List.copyOf(all));
    LOG.info(
        "Revision {} is served: {} records, digest {}",
        made.revision().number(),
        made.revision().records(),
        made.revision().digest());
  }

  /** One revision as the database tells it; as the caller's transaction sees it. */
  Revision read(long number) {
    return rows.one(number)
        .orElseThrow(() -> new IllegalStateException("there is no revision " + number));
  }

  /** Compiles a revision; traits in which it does not differ from what is served are not pooled. */
  Snapshot compile(Revision revision, Evidence evidence) {
    return compile(revision, evidence, latest());
  }

  private static Snapshot compile(Revision revision, Evidence evidence, @Nullable Snapshot near) {
    TraitBook book =
        near == null
            ? CompiledTraitBook.compile(revision.number(), evidence)
            : CompiledTraitBook.compile(revision.number(), evidence, near.book());
    return new Snapshot(book, Adviser.of(book), revision);
  }

  private Snapshot load(Revision revision, @Nullable Snapshot near) {
    long begun = System.nanoTime();
    try {
      long number = revision.number();
      Evidence evidence =
          near == null || near.revision().number() > number
              ? StoredEvidence.read(database, number)
              : StoredEvidence.read(
                  database, number, near.book().evidence(), near.revision().number());
      Snapshot snapshot = compile(revision, evidence, near);
      LOG.info(
          "Revision {} compiled in {} ms: {} records, digest {}",
          revision.number(),
          (System.nanoTime() - begun) / 1_000_000,
          revision.records(),
          revision.digest());
      return snapshot;
    } catch (SQLException e) {
      throw new DataAccessResourceFailureException(
          "revision " + revision.number() + " can't be read", e);
    }
  }

  private static void tell(Report report) {
    LOG.info("Starter evidence loaded as revision 1: {}", report.details().strip());
    for (Problem problem : report.refused()) LOG.warn("Refused: {}", problem);
  }
}
