package org.understock.service.curation;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.understock.evidence.Evidence;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.EvidenceWriter;
import org.understock.migrations.StoredEvidence;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * Reads and writes records and what they speak of, whatever their standing. Writes take part in the
 * caller's transaction.
 */
@Component
class RecordFile {
  private final JdbcClient database;
  private final JdbcTemplate connections;

  RecordFile(JdbcClient database, DataSource dataSource) {
    this.database = database;
    this.connections = new JdbcTemplate(dataSource);
  }

  /** What to look for; every part may be left out. */
  record Filter(
      @Nullable String status,
      @Nullable String crop,
      @Nullable String trait,
      @Nullable String subject,
      @Nullable String source,
      @Nullable String who,
      @Nullable Instant since,
      @Nullable String importId) {}

  /** Where a walk stands: records come in the order in which they were proposed. */
  record Place(Instant proposedAt, String id) {}

  /**
   * Traits, stocks, varieties and sources, those included that still wait for a review; no records.
   */
  Evidence catalogue() {
    return with(StoredEvidence::catalogue);
  }

  Optional<FiledRecord> find(String id) {
    return database
        .sql("select * from records where id = ?")
        .param(id)
        .query((r, n) -> filed(r))
        .optional();
  }

  /** Records by id; ids that are not known are passed over. */
  List<FiledRecord> find(Collection<String> ids) {
    if (ids.isEmpty()) return List.of();
    return database
        .sql("select * from records where id = any(?) order by id")
        .param(ids.toArray(new String[0]))
        .query((r, n) -> filed(r))
        .list();
  }

  /** Records by id, locked until the end of the transaction. */
  List<FiledRecord> lock(Collection<String> ids) {
    if (ids.isEmpty()) return List.of();
    return database
        .sql("select * from records where id = any(?) order by id for update")
        .param(ids.toArray(new String[0]))
        .query((r, n) -> filed(r))
        .list();
  }

  /** The record of the same content that is proposed or accepted, if there is one. */
  Optional<FiledRecord> living(String contentKey) {
    return database
        .sql("select * from records where content_key = ? and status in ('proposed', 'accepted')")
        .param(contentKey)
        .query((r, n) -> filed(r))
        .optional();
  }

  boolean idTaken(String id) {
    return database
        .sql("select exists (select from records where id = ?)")
        .param(id)
        .query(Boolean.class)
        .single();
  }

  List<FiledRecord> list(Filter filter, @Nullable Place after, int limit) {
    StringBuilder sql = new StringBuilder("select * from records where true");
    List<Object> values = new ArrayList<>();
    add(sql, values, " and status = ?", filter.status());
    add(sql, values, " and crop = ?", filter.crop());
    add(sql, values, " and trait = ?", filter.trait());
    add(sql, values, " and source = ?", filter.source());
    add(sql, values, " and ? in (stock, variety)", filter.subject());
    add(sql, values, " and ? in (proposed_by, edited_by, reviewed_by)", filter.who());
    add(sql, values, " and import_id = ?", filter.importId());
    if (filter.since() != null)
      add(
          sql,
          values,
          " and greatest(proposed_at, edited_at, reviewed_at) >= ?",
          Timestamp.from(filter.since()));
    if (after != null) {
      add(sql, values, " and (proposed_at, id) > (?,", Timestamp.from(after.proposedAt()));
      add(sql, values, " ?)", after.id());
    }
    values.add(limit);
    return database
        .sql(sql.append(" order by proposed_at, id limit ?").toString())
        .params(values)
        .query((r, n) -> filed(r))
        .list();
  }

  private static void add(
      StringBuilder sql, List<Object> values, String condition, @Nullable Object value) {
    if (value == null) return;
    sql.append(condition);
    values.add(value);
  }

  void propose(TraitRecord record, @Nullable String supersedes, Evidence catalogue, String actor) {
    propose(List.of(new EvidenceWriter.Filed(record, supersedes)), catalogue, actor);
  }

  void propose(List<EvidenceWriter.Filed> records, Evidence catalogue, String actor) {
    with(
        connection -> {
          EvidenceWriter.proposed(connection, actor).records(records, catalogue.traits());
          return true;
        });
  }

  /**
   * Files records that came with an import; one that is there by now, because somebody else was
   * faster, is passed over.
   *
   * @return ids of those that were filed
   */
  List<String> propose(
      List<EvidenceWriter.Filed> records, Evidence catalogue, String actor, String importId) {
    with(
        connection -> {
          EvidenceWriter.imported(connection, actor, importId).records(records, catalogue.traits());
          return true;
        });
    return database
        .sql("select id from records where import_id = ? and id = any(?)")
        .param(importId)
        .param(records.stream().map(filed -> filed.record().id()).toArray(String[]::new))
        .query(String.class)
        .list();
  }

  /** Files entries of the catalogue that came with an import. */
  void propose(
      List<Source> sources,
      List<Stock> stocks,
      List<Variety> varieties,
      String actor,
      String importId) {
    with(
        connection -> {
          EvidenceWriter writer = EvidenceWriter.imported(connection, actor, importId);
          writer.sources(sources);
          writer.plants(stocks, varieties);
          return true;
        });
  }

  /**
   * Of some content keys those that were ever filed: as they are now, or as they were when they
   * were proposed.
   */
  Set<String> everFiled(Collection<String> contentKeys) {
    String[] keys = contentKeys.toArray(new String[0]);
    String[] ids = contentKeys.stream().map(key -> "r-" + key).toArray(String[]::new);
    return new HashSet<>(
        database
            .sql(
                "select content_key from records where content_key = any(?) union select substr(id, 3) from records where id = any(?)")
            .param(keys)
            .param(ids)
            .query(String.class)
            .list());
  }

  /**
   * Ids of what came with an import and still waits for a review. @param table records, sources,
   * stocks or varieties
   */
  List<String> waiting(String table, String importId) {
    String waits = table.equals("records") ? "status = 'proposed'" : "since_revision is null";
    return database
        .sql("select id from " + table + " where import_id = ? and " + waits + " order by id")
        .param(importId)
        .query(String.class)
        .list();
  }

  /** Gives a proposal another content. */
  void amend(
      String id,
      TraitRecord record,
      @Nullable String supersedes,
      Evidence catalogue,
      String actor) {
    with(
        connection -> {
          EvidenceWriter.proposed(connection, actor)
              .amend(id, new EvidenceWriter.Filed(record, supersedes), catalogue.traits());
          return true;
        });
  }

  void propose(Source source, String actor) {
    with(
        connection -> {
          EvidenceWriter.proposed(connection, actor).sources(List.of(source));
          return true;
        });
  }

  void propose(Stock stock, String actor) {
    with(
        connection -> {
          EvidenceWriter.proposed(connection, actor).plants(List.of(stock), List.of());
          return true;
        });
  }

  void propose(Variety variety, String actor) {
    with(
        connection -> {
          EvidenceWriter.proposed(connection, actor).plants(List.of(), List.of(variety));
          return true;
        });
  }

  private interface Work<T> {
    T on(Connection connection) throws SQLException;
  }

  /**
   * Runs on the transaction's connection; what the database says is translated as for any other
   * access.
   */
  private <T> T with(Work<T> work) {
    T result = connections.execute((ConnectionCallback<T>) work::on);
    if (result == null) throw new DataAccessResourceFailureException("the database gave no answer");
    return result;
  }

  private static FiledRecord filed(ResultSet r) throws SQLException {
    return new FiledRecord(
        StoredEvidence.record(r),
        r.getString("status"),
        r.getLong("version"),
        r.getString("supersedes"),
        r.getString("proposed_by"),
        r.getTimestamp("proposed_at").toInstant(),
        r.getString("edited_by"),
        instant(r, "edited_at"),
        r.getString("reviewed_by"),
        instant(r, "reviewed_at"),
        r.getString("review_note"),
        r.getObject("revision_from", Long.class),
        r.getObject("revision_to", Long.class));
  }

  private static @Nullable Instant instant(ResultSet r, String column) throws SQLException {
    Timestamp at = r.getTimestamp(column);
    return at == null ? null : at.toInstant();
  }
}
