package org.understock.service.curation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionException;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import org.understock.evidence.Evidence;
import org.understock.evidence.reading.Catalogue;
import org.understock.evidence.reading.EvidenceReader;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.migrations.StarterEvidence;
import org.understock.service.curation.ImportLog.Counts;
import org.understock.service.curation.ImportViews.ImportOutcome;
import org.understock.service.curation.ImportViews.ImportProblem;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Carries out imports. An import is one transaction, in either mode: a process that is killed in
 * the middle leaves nothing, and sending the file again completes it. One runs at a time, so that
 * the memory and the locks that they need stay bounded.
 */
@Component
class ImportDesk {
  private static final Logger LOG = LoggerFactory.getLogger(ImportDesk.class);
  private static final long TELL_EVERY_NS = Duration.ofMillis(500).toNanos();

  private final RecordFile file;
  private final AuditTrail audit;
  private final ImportLog log;
  private final ImportLines lines;
  private final JdbcClient database;
  private final Map<String, List<String>> groups = StarterEvidence.groups();

  ImportDesk(
      RecordFile file, AuditTrail audit, ImportLog log, ImportLines lines, JdbcClient database) {
    this.file = file;
    this.audit = audit;
    this.log = log;
    this.lines = lines;
    this.database = database;
  }

  /** Thrown so that the transaction is rolled back; carries what is to be told. */
  static final class Refused extends RuntimeException {
    private final ImportOutcome outcome;
    private final String reason;

    Refused(ImportOutcome outcome, String reason) {
      super(reason, null, false, false);
      this.outcome = outcome;
      this.reason = reason;
    }

    ImportOutcome outcome() {
      return outcome;
    }

    String reason() {
      return reason;
    }
  }

  /**
   * Files what can be read of a file, in the caller's transaction.
   *
   * @throws Refused when a row is bad and all or nothing was asked for, or nothing can be read at
   *     all
   * @throws ProblemException 409 when another import is running
   */
  @Transactional(propagation = Propagation.MANDATORY)
  ImportOutcome carryOut(ImportOrder order, Deed deed) {
    if (!database
        .sql("select pg_try_advisory_xact_lock(hashtext('understock.imports'))")
        .query(Boolean.class)
        .single()) {
      throw ProblemException.of(
              ProblemType.CONFLICT,
              "Another import is running; GET /v1/curation/imports shows how far it is. Send this one again when it has ended.",
              List.of())
          .withHeader("Retry-After", "10");
    }
    String id = log.begin(order, deed);
    Evidence catalogue = file.catalogue();
    ImportFiling filing =
        new ImportFiling(
            file, audit, catalogue, deed, id, order.allOrNothing(), new Progress(id)::tell);
    try {
      read(order, catalogue, filing);
      filing.flush();
      if (filing.problemCount() > 0 && (order.allOrNothing() || filing.counts().rows() == 0))
        throw refused(id, order, filing);
      ImportOutcome outcome =
          outcome(id, order, filing.counts(), filing.problemCount(), filing.problems());
      audit.write(
          deed,
          "import",
          "import " + id,
          null,
          order.kindId()
              + ", "
              + order.mode()
              + ": "
              + outcome.rows()
              + " rows, "
              + outcome.proposed()
              + " proposed, "
              + outcome.duplicates()
              + " known before, "
              + outcome.refused()
              + " refused; SHA-256 "
              + order.digest());
      log.finish(id, filing.counts());
      return outcome;
    } catch (Refused refused) {
      log.giveUp(id, "refused", filing.counts());
      throw refused;
    } catch (RuntimeException e) {
      giveUp(id, filing.counts());
      throw e;
    }
  }

  private void read(ImportOrder order, Evidence catalogue, ImportFiling filing) {
    if (order.lines()) {
      lines.read(order, catalogue, filing);
      return;
    }
    Kind kind = java.util.Objects.requireNonNull(order.kind());
    EvidenceReader reader =
        new EvidenceReader(
            new Catalogue(
                Map.of(), catalogue.traits(), catalogue.plants(), catalogue.sources(), groups));
    EvidenceReader.Tally tally = reader.read(kind, kind.file(), () -> open(order.body()), filing);
    filing.counted(tally.rows(), tally.refused());
  }

  static InputStream open(Path body) {
    try {
      return Files.newInputStream(body);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Refused refused(String id, ImportOrder order, ImportFiling filing) {
    Counts counts = filing.counts();
    Counts none = new Counts(counts.rows(), 0, 0, counts.refused());
    ImportProblem first = filing.problems().get(0);
    String reason =
        (counts.rows() == 0
                ? "The file can't be read"
                : counts.refused() + " of " + counts.rows() + " rows can't be used")
            + "; nothing was kept. First: line "
            + first.line()
            + (first.column() == null ? "" : ", " + first.column())
            + (first.pointer() == null ? "" : ", " + first.pointer())
            + ": "
            + first.text()
            + ".";
    return new Refused(outcome(id, order, none, filing.problemCount(), filing.problems()), reason);
  }

  private static ImportOutcome outcome(
      String id,
      ImportOrder order,
      Counts counts,
      long problemCount,
      List<ImportProblem> problems) {
    return new ImportOutcome(
        id,
        order.kindId(),
        order.mode(),
        counts.rows(),
        0,
        counts.proposed(),
        counts.duplicates(),
        counts.refused(),
        problemCount,
        problems);
  }

  /**
   * The fault that is on its way to the caller tells more than that it could not be written down.
   */
  private void giveUp(String id, Counts counts) {
    try {
      log.giveUp(id, "failed", counts);
    } catch (DataAccessException | TransactionException e) {
      LOG.warn("Import {} failed, which could not be written down: {}", id, e.getMessage());
    }
  }

  /** Tells how far it is, at most twice a second. */
  private final class Progress {
    private final String id;
    private long toldAt = System.nanoTime();

    Progress(String id) {
      this.id = id;
    }

    void tell(Counts counts) {
      long now = System.nanoTime();
      if (now - toldAt < TELL_EVERY_NS) return;
      toldAt = now;
      log.tell(id, counts);
    }
  }
}
