package org.understock.service.curation;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.impact.Change;
import org.understock.impact.ExampleAnswers;
import org.understock.impact.ExampleQuestion;
import org.understock.impact.Gap;
import org.understock.impact.Gaps;
import org.understock.impact.Impact;
import org.understock.impact.KeptExamples;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.statement.RecordBody;
import org.understock.service.store.Snapshot;
import org.understock.service.store.Snapshots;
import org.understock.trait.Refusal;

/**
 * What a change of the evidence would do, and which evidence would do most. Reads the database,
 * writes nothing; what it computes of an accepted revision it keeps while that revision is asked
 * for.
 */
@Component
class Foresight {
  /** The latest revision, and the one before, which a walk over pages may still be on. */
  private static final int REVISIONS_KEPT = 2;

  private final RecordFile file;
  private final Snapshots snapshots;
  private final List<ExampleQuestion> examples = KeptExamples.all();
  private final Cache<Long, ExampleAnswers> answers =
      Caffeine.newBuilder().maximumSize(REVISIONS_KEPT).build();
  private final Cache<Long, List<Gap>> gaps =
      Caffeine.newBuilder().maximumSize(REVISIONS_KEPT).build();

  Foresight(RecordFile file, Snapshots snapshots) {
    this.file = file;
    this.snapshots = snapshots;
  }

  /** What the latest revision would become. */
  record Foreseen(long revision, Impact impact) {}

  /**
   * What it would do if these statements, and these proposals, came to count, and these records
   * counted no longer.
   *
   * @param only ids of the kept examples to answer; all when there are none
   * @throws ProblemException when a statement is not one, all faults of all of them at once; when
   *     an id is unknown, or of a record that can't be decided so
   */
  Foreseen impact(
      List<RecordBody> records, List<String> accept, List<String> withdraw, List<String> only) {
    Snapshot now = snapshots.latest();
    Evidence catalogue = file.catalogue();
    Set<String> removed = new HashSet<>(withdraw);
    List<TraitRecord> drafted = drafted(records, catalogue, removed);
    Map<String, FiledRecord> filed = filed(accept, withdraw);
    List<TraitRecord> added = new ArrayList<>();
    for (String id : accept) {
      FiledRecord proposal = Objects.requireNonNull(filed.get(id));
      added.add(proposal.record());
      if (proposal.supersedes() != null) removed.add(proposal.supersedes());
    }
    added.addAll(asNew(drafted, added, now.book()));
    ExampleAnswers before =
        answers.get(now.revision().number(), n -> ExampleAnswers.of(now.adviser(), examples));
    ExampleAnswers asked = only.isEmpty() ? before : before.only(only);
    return new Foreseen(
        now.revision().number(),
        Impact.of(asked, new Change(added, removed).appliedTo(now.book().evidence(), catalogue)));
  }

  /**
   * What would be worth knowing better as of a revision, the most first; empty when the revision is
   * not known.
   */
  Optional<List<Gap>> gaps(long revision) {
    return snapshots
        .at(revision)
        .map(snapshot -> gaps.get(revision, n -> Gaps.of(snapshot.adviser(), examples)));
  }

  private List<TraitRecord> drafted(
      List<RecordBody> bodies, Evidence catalogue, Set<String> removed) {
    RecordCheck check =
        new RecordCheck(catalogue.traits(), catalogue.plants(), catalogue.sources());
    Map<String, FiledRecord> superseded =
        byId(bodies.stream().map(RecordBody::supersedes).filter(Objects::nonNull).toList());
    List<TraitRecord> made = new ArrayList<>();
    List<ProblemException> refused = new ArrayList<>();
    for (int k = 0; k < bodies.size(); k++) {
      RecordBody body = bodies.get(k);
      List<Refusal> wrong = new ArrayList<>();
      try {
        RecordCheck.Draft draft = body.draft(catalogue.traits());
        wrong.addAll(check.problems(draft));
        place(body.supersedes(), superseded).ifPresent(wrong::add);
        if (wrong.isEmpty()) made.add(check.make(draft));
      } catch (Refusal word) {
        wrong.add(word);
      }
      if (!wrong.isEmpty())
        refused.add(
            ProblemException.ofRefusals(wrong, "records[" + k + "]").repointed(body::member));
      if (body.supersedes() != null) removed.add(body.supersedes());
    }
    if (!refused.isEmpty()) throw together(refused);
    return made;
  }

  /**
   * The statements with ids that nothing bears yet.
   *
   * @throws ProblemException 409 when one says what an accepted record, a named proposal or another
   *     of them says: it would count once
   */
  private List<TraitRecord> asNew(
      List<TraitRecord> drafted, List<TraitRecord> proposals, TraitBook book) {
    Map<String, String> said = new HashMap<>();
    Set<String> ids = new HashSet<>();
    for (TraitRecord proposal : proposals) {
      said.put(Canonical.key(proposal), "record " + proposal.id());
      ids.add(proposal.id());
    }
    List<TraitRecord> named = new ArrayList<>();
    List<ProblemError> again = new ArrayList<>();
    for (int k = 0; k < drafted.size(); k++) {
      TraitRecord record = drafted.get(k);
      String key = Canonical.key(record);
      String same = said.putIfAbsent(key, "#/records/" + k);
      if (same == null)
        same =
            file.living(key)
                .filter(f -> f.status().equals("accepted"))
                .map(f -> "record " + f.record().id())
                .orElse(null);
      if (same != null)
        again.add(
            new ProblemError("#/records/" + k, null, "says the same as " + same, null, null, null));
      String id = record.id();
      for (int occurrence = 2; ids.contains(id) || book.record(id).isPresent(); occurrence++)
        id = Canonical.id(record, occurrence);
      ids.add(id);
      named.add(
          new TraitRecord(
              id,
              record.subject(),
              record.trait(),
              record.value(),
              record.method(),
              record.source(),
              record.locator(),
              record.context(),
              record.note()));
    }
    if (!again.isEmpty())
      throw ProblemException.of(
          ProblemType.CONFLICT, "A statement counts once, however often it is filed.", again);
    return named;
  }

  private static Optional<Refusal> place(@Nullable String id, Map<String, FiledRecord> superseded) {
    if (id == null) return Optional.empty();
    FiledRecord old = superseded.get(id);
    if (old == null) return Optional.of(new Refusal.Unknown("supersedes", id, List.of()));
    if (old.status().equals("accepted")) return Optional.empty();
    return Optional.of(
        new Refusal.Conflict(
            "supersedes",
            "record "
                + id
                + " is "
                + old.status()
                + "; only an accepted record can be superseded"));
  }

  private static ProblemException together(List<ProblemException> refused) {
    if (refused.size() == 1) return refused.get(0);
    List<ProblemError> errors = refused.stream().flatMap(r -> r.errors().stream()).toList();
    boolean unknown = refused.stream().allMatch(r -> r.type() == ProblemType.UNKNOWN_ID);
    return ProblemException.of(
        unknown ? ProblemType.UNKNOWN_ID : ProblemType.INVALID_REQUEST,
        errors.size() + " things are wrong with " + refused.size() + " records; errors names each.",
        errors);
  }

  private Map<String, FiledRecord> filed(List<String> accept, List<String> withdraw) {
    List<String> wanted = new ArrayList<>(accept);
    wanted.addAll(withdraw);
    Map<String, FiledRecord> filed = byId(wanted);
    List<ProblemError> unknown = new ArrayList<>();
    List<ProblemError> standing = new ArrayList<>();
    judge("accept", accept, "proposed", filed, unknown, standing);
    judge("withdraw", withdraw, "accepted", filed, unknown, standing);
    if (!unknown.isEmpty())
      throw ProblemException.of(
          ProblemType.UNKNOWN_ID, "The request names records that do not exist.", unknown);
    if (!standing.isEmpty())
      throw ProblemException.of(
          ProblemType.CONFLICT, "A review could not decide so as things stand.", standing);
    return filed;
  }

  private static void judge(
      String list,
      List<String> ids,
      String needed,
      Map<String, FiledRecord> filed,
      List<ProblemError> unknown,
      List<ProblemError> standing) {
    Set<String> seen = new HashSet<>();
    for (int k = 0; k < ids.size(); k++) {
      String pointer = "#/" + list + "/" + k;
      FiledRecord record = filed.get(ids.get(k));
      if (record == null)
        unknown.add(new ProblemError(pointer, null, "is no record", null, ids.get(k), null));
      else if (!seen.add(ids.get(k)))
        standing.add(new ProblemError(pointer, null, "is named twice", null, ids.get(k), null));
      else if (!record.status().equals(needed)) {
        standing.add(
            new ProblemError(
                pointer,
                null,
                "is " + record.status(),
                "a record that is " + needed,
                ids.get(k),
                null));
      }
    }
  }

  private Map<String, FiledRecord> byId(Collection<String> ids) {
    Map<String, FiledRecord> byId = new HashMap<>();
    for (FiledRecord record : file.find(ids)) byId.put(record.record().id(), record);
    return byId;
  }
}
