package org.understock.service.curation;

import java.sql.Types;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.SqlParameterValue;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.store.Revision;
import org.understock.service.store.RevisionMaker;

/**
 * Carries out reviews. A review is one transaction: it makes one revision with all that was
 * decided, or none. Reviews wait for each other, so that revisions are numbered without gaps and
 * two reviewers never decide on one record twice.
 */
@Component
class ReviewDesk {
  private final RecordFile file;
  private final AuditTrail audit;
  private final RevisionMaker revisions;
  private final JdbcClient database;
  private final boolean fourEyes;

  ReviewDesk(
      RecordFile file,
      AuditTrail audit,
      RevisionMaker revisions,
      JdbcClient database,
      @Value("${understock.curation.four-eyes:true}") boolean fourEyes) {
    this.file = file;
    this.audit = audit;
    this.revisions = revisions;
    this.database = database;
    this.fourEyes = fourEyes;
  }

  /**
   * What came of a review.
   *
   * @param revision the revision that it made; the one that stands when it changed no evidence
   * @param made whether it made a revision
   * @param superseded ids of the records whose place accepted ones have taken
   */
  record Outcome(
      Revision revision,
      boolean made,
      int accepted,
      int rejected,
      int withdrawn,
      List<String> superseded) {}

  /**
   * @throws ProblemException naming every id that can't be decided so; nothing is changed then
   */
  @Transactional
  Outcome carryOut(Review asked, Deed deed) {
    revisions.waitForTurn();
    Review review = asked.acceptImport() == null ? asked : withImport(asked, asked.acceptImport());
    Map<String, FiledRecord> records = records(review);
    List<String> superseded = judge(review, records, deed);
    decide("rejected", review.reject(), null, review.note(), deed);
    audit.writeAll(deed, "reject", review.reject(), null, review.note());
    if (!review.changesEvidence())
      return new Outcome(revisions.latest(), false, 0, review.reject().size(), 0, List.of());
    long number = revisions.latest().number() + 1;
    decide("accepted", review.accept(), number, review.note(), deed);
    decide("superseded", superseded, number, review.note(), deed);
    decide("withdrawn", review.withdraw(), number, review.note(), deed);
    enter(review, number, deed);
    audit.writeAll(deed, "accept", review.accept(), number, review.note());
    audit.writeAll(deed, "supersede", superseded, number, review.note());
    audit.writeAll(deed, "withdraw", review.withdraw(), number, review.note());
    Revision made = revisions.make(number, review.note(), deed.actor());
    audit.write(deed, "revise", "revision " + number, number, made.digest());
    return new Outcome(
        made,
        true,
        review.accept().size(),
        review.reject().size(),
        review.withdraw().size(),
        superseded);
  }

  /** The review with all that came with an import spelt out. */
  private Review withImport(Review asked, String importId) {
    if (!database
        .sql("select exists (select from imports where id = ?)")
        .param(importId)
        .query(Boolean.class)
        .single()) {
      throw ProblemException.of(
          ProblemType.UNKNOWN_ID,
          "The review names an import that does not exist.",
          List.of(new ProblemError("#/acceptImport", null, "is no import", null, importId, null)));
    }
    Set<String> rejected = new HashSet<>(asked.reject());
    List<String> records =
        file.waiting("records", importId).stream().filter(id -> !rejected.contains(id)).toList();
    Review review =
        new Review(
            union(asked.accept(), records),
            asked.reject(),
            asked.withdraw(),
            union(asked.sources(), file.waiting("sources", importId)),
            union(asked.stocks(), file.waiting("stocks", importId)),
            union(asked.varieties(), file.waiting("varieties", importId)),
            null,
            asked.note());
    if (!review.changesEvidence() && review.reject().isEmpty()) {
      throw ProblemException.of(
          ProblemType.CONFLICT,
          "Nothing that came with the import " + importId + " waits for a review.",
          List.of());
    }
    return review;
  }

  private static List<String> union(List<String> named, List<String> more) {
    Set<String> all = new LinkedHashSet<>(named);
    all.addAll(more);
    return List.copyOf(all);
  }

  private Map<String, FiledRecord> records(Review review) {
    List<String> wanted = new ArrayList<>(review.accept());
    wanted.addAll(review.reject());
    wanted.addAll(review.withdraw());
    Map<String, FiledRecord> records = new LinkedHashMap<>();
    for (FiledRecord record : file.lock(wanted)) records.put(record.record().id(), record);
    return records;
  }

  /**
   * Refuses what can't be decided; otherwise tells which records the accepted ones take the place
   * of.
   */
  private List<String> judge(Review review, Map<String, FiledRecord> records, Deed deed) {
    List<ProblemError> unknown = new ArrayList<>();
    List<ProblemError> standing = new ArrayList<>();
    List<ProblemError> own = new ArrayList<>();
    Map<String, String> named = new LinkedHashMap<>();
    List<String> superseded = new ArrayList<>();
    for (Map.Entry<String, List<String>> list :
        Map.of("accept", review.accept(), "reject", review.reject(), "withdraw", review.withdraw())
            .entrySet()
            .stream()
            .sorted(Map.Entry.comparingByKey())
            .toList()) {
      String needed = list.getKey().equals("withdraw") ? "accepted" : "proposed";
      for (int i = 0; i < list.getValue().size(); i++) {
        String id = list.getValue().get(i);
        String pointer = "#/" + list.getKey() + "/" + i;
        FiledRecord record = records.get(id);
        String before = named.putIfAbsent(id, pointer);
        if (record == null)
          unknown.add(new ProblemError(pointer, null, "is no record", null, id, null));
        else if (before != null)
          standing.add(
              new ProblemError(pointer, null, "is named at " + before + " too", null, id, null));
        else if (!record.status().equals(needed))
          standing.add(
              new ProblemError(
                  pointer, null, "is " + record.status(), "a record that is " + needed, id, null));
        else if (fourEyes && needed.equals("proposed") && record.writtenBy(deed.actor()))
          own.add(
              new ProblemError(pointer, null, "was written by " + deed.actor(), null, id, null));
        if (record != null && list.getKey().equals("accept") && record.supersedes() != null)
          superseded.add(record.supersedes());
      }
    }
    if (!unknown.isEmpty())
      throw ProblemException.of(
          ProblemType.UNKNOWN_ID, "The review names records that do not exist.", unknown);
    standing.addAll(supersession(review, superseded));
    if (!standing.isEmpty())
      throw ProblemException.of(
          ProblemType.CONFLICT,
          "The review can't be carried out as things stand; nothing was changed.",
          standing);
    if (!own.isEmpty())
      throw ProblemException.of(
          ProblemType.FOUR_EYES,
          "Whoever wrote a statement can't review it; nothing was changed.",
          own);
    return superseded;
  }

  private List<ProblemError> supersession(Review review, List<String> superseded) {
    List<ProblemError> errors = new ArrayList<>();
    Map<String, FiledRecord> old = new LinkedHashMap<>();
    for (FiledRecord record : file.lock(superseded)) old.put(record.record().id(), record);
    Set<String> withdrawn = new HashSet<>(review.withdraw());
    Set<String> seen = new HashSet<>();
    for (String id : superseded) {
      FiledRecord record = old.get(id);
      if (record == null || !record.status().equals("accepted"))
        errors.add(
            new ProblemError(
                "#/accept",
                null,
                "supersedes " + id + ", which is accepted no longer",
                null,
                null,
                null));
      if (withdrawn.contains(id))
        errors.add(
            new ProblemError(
                "#/withdraw", null, id + " is superseded by the same review", null, null, null));
      if (!seen.add(id))
        errors.add(
            new ProblemError("#/accept", null, "two records supersede " + id, null, null, null));
    }
    return errors;
  }

  private void decide(
      String status, Collection<String> ids, @Nullable Long revision, String note, Deed deed) {
    if (ids.isEmpty()) return;
    /* A rejected record has no revision: its bound stays empty. */
    String bound = status.equals("accepted") ? "revision_from" : "revision_to";
    /* The array goes as one parameter: thousands of ids may be decided at once. */
    int changed =
        database
            .sql(
                "update records set status = ?, "
                    + bound
                    + " = ?, reviewed_by = ?, reviewed_at = now(), review_note = ? where id = any(?)")
            .param(status)
            .param(new SqlParameterValue(Types.BIGINT, revision))
            .param(deed.actor())
            .param(note)
            .param(ids.toArray(new String[0]))
            .update();
    if (changed != ids.size())
      throw new IllegalStateException(changed + " of " + ids.size() + " records were " + status);
  }

  /** Lets in what the accepted records speak of, and what the review names by itself. */
  private void enter(Review review, long number, Deed deed) {
    enter(
        "source",
        "sources",
        review.sources(),
        """
        with recursive needed(id) as (
          select source from records where revision_from = :revision
          union select id from sources where id = any(:named)
          union select s.origin from sources s join needed n on s.id = n.id where s.origin is not null)
        """,
        number,
        deed);
    enter(
        "stock",
        "stocks",
        review.stocks(),
        """
        with recursive needed(id) as (
          select stock from records where revision_from = :revision and stock is not null
          union select id from stocks where id = any(:named)
          union select s.clone_of from stocks s join needed n on s.id = n.id where s.clone_of is not null)
        """,
        number,
        deed);
    enter(
        "variety",
        "varieties",
        review.varieties(),
        """
        with recursive needed(id) as (
          select variety from records where revision_from = :revision and variety is not null
          union select id from varieties where id = any(:named))
        """,
        number,
        deed);
    for (String table : List.of("stock_names", "stock_crops")) {
      database
          .sql(
              "update "
                  + table
                  + " t set since_revision = :revision from stocks s where t.stock = s.id and t.since_revision is null and s.since_revision is not null")
          .param("revision", number)
          .update();
    }
    database
        .sql(
            "update variety_names t set since_revision = :revision from varieties v where t.variety = v.id and t.since_revision is null and v.since_revision is not null")
        .param("revision", number)
        .update();
    /* A stock that is rated in another crop than before belongs to that crop from now on. A verdict on a pairing alone says as little as that it does not grow there. */
    database
        .sql(
            """
        insert into stock_crops (stock, crop, since_revision)
        select distinct stock, crop, cast(:revision as bigint) from records where revision_from = :revision and subject = 'stock'
        on conflict (stock, crop) do nothing""")
        .param("revision", number)
        .update();
  }

  private void enter(
      String what, String table, List<String> named, String needed, long number, Deed deed) {
    String[] ids = named.toArray(new String[0]); // one parameter: an import may bring thousands
    Set<String> known =
        new HashSet<>(
            database
                .sql("select id from " + table + " where id = any(:named)")
                .param("named", ids)
                .query(String.class)
                .list());
    List<ProblemError> unknown = new ArrayList<>();
    for (int i = 0; i < named.size(); i++) {
      if (!known.contains(named.get(i)))
        unknown.add(
            new ProblemError(
                "#/" + table + "/" + i, null, "is no " + what, null, named.get(i), null));
    }
    if (!unknown.isEmpty())
      throw ProblemException.of(
          ProblemType.UNKNOWN_ID, "The review names a " + what + " that does not exist.", unknown);
    List<Map<String, Object>> entering =
        database
            .sql(
                needed
                    + " select id, proposed_by from "
                    + table
                    + " where since_revision is null and id in (select id from needed) order by id")
            .param("revision", number)
            .param("named", ids)
            .query()
            .listOfRows();
    List<ProblemError> own = new ArrayList<>();
    for (Map<String, Object> row : entering) {
      if (fourEyes && deed.actor().equals(row.get("proposed_by")))
        own.add(
            new ProblemError(
                null,
                null,
                what + " " + row.get("id") + " was written by " + deed.actor(),
                null,
                null,
                null));
    }
    if (!own.isEmpty())
      throw ProblemException.of(
          ProblemType.FOUR_EYES,
          "Whoever wrote something can't review it; nothing was changed.",
          own);
    for (Map<String, Object> row : entering) {
      database
          .sql("update " + table + " set since_revision = :revision where id = :id")
          .param("revision", number)
          .param("id", row.get("id"))
          .update();
      audit.write(deed, "accept", what + " " + row.get("id"), number, "");
    }
  }
}
