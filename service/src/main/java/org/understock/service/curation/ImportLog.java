package org.understock.service.curation;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import org.understock.service.curation.ImportViews.ImportView;

/**
 * The list of imports. How far a running one is, is told outside of its transaction, so that
 * everybody can see it, on every replica.
 */
@Component
class ImportLog {
  private static final String SELECT =
      """
      select *, case when status = 'running' and heard_at < now() - interval '2 minutes' then 'interrupted' else status end as standing
      from imports""";

  private final JdbcClient database;
  private final TransactionTemplate apart;

  ImportLog(JdbcClient database, PlatformTransactionManager transactions) {
    this.database = database;
    this.apart = new TransactionTemplate(transactions);
    apart.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
  }

  /** How far an import is. */
  record Counts(long rows, long proposed, long duplicates, long refused) {}

  /** Where a walk through the list stands. */
  record Place(Instant startedAt, String id) {}

  /** Enters an import that begins. @return its id */
  String begin(ImportOrder order, Deed deed) {
    String id = "i-" + UUID.randomUUID().toString().replace("-", "").substring(0, 16);
    apart.executeWithoutResult(
        status ->
            database
                .sql(
                    "insert into imports (id, kind, format, mode, bytes, body_digest, actor, request) values (?, ?, ?, ?, ?, ?, ?, ?)")
                .params(
                    id,
                    order.kindId(),
                    order.format(),
                    order.mode(),
                    order.bytes(),
                    order.digest(),
                    deed.actor(),
                    deed.request())
                .update());
    return id;
  }

  /** Tells how far a running import is. */
  void tell(String id, Counts counts) {
    apart.executeWithoutResult(
        status ->
            database
                .sql(
                    "update imports set rows_read = ?, proposed = ?, duplicates = ?, refused = ?, heard_at = clock_timestamp() where id = ?")
                .params(counts.rows(), counts.proposed(), counts.duplicates(), counts.refused(), id)
                .update());
  }

  /** Closes an import, in the transaction of what it filed. */
  void finish(String id, Counts counts) {
    close(id, "finished", counts);
  }

  /** Closes an import of which nothing is kept. @param status refused or failed */
  void giveUp(String id, String status, Counts counts) {
    apart.executeWithoutResult(s -> close(id, status, counts));
  }

  private void close(String id, String status, Counts counts) {
    database
        .sql(
            """
        update imports set status = ?, rows_read = ?, proposed = ?, duplicates = ?, refused = ?, heard_at = clock_timestamp(),
          finished_at = clock_timestamp() where id = ?""")
        .params(status, counts.rows(), counts.proposed(), counts.duplicates(), counts.refused(), id)
        .update();
  }

  Optional<ImportView> find(String id) {
    return database.sql(SELECT + " where id = ?").param(id).query((r, n) -> view(r)).optional();
  }

  /** Newest first. */
  List<ImportView> list(@Nullable String status, @Nullable Place after, int limit) {
    StringBuilder sql = new StringBuilder("select * from (" + SELECT + ") i where true");
    List<Object> values = new ArrayList<>();
    if (status != null) {
      sql.append(" and standing = ?");
      values.add(status);
    }
    if (after != null) {
      sql.append(" and (started_at, id) < (?, ?)");
      values.add(Timestamp.from(after.startedAt()));
      values.add(after.id());
    }
    values.add(limit);
    return database
        .sql(sql.append(" order by started_at desc, id desc limit ?").toString())
        .params(values)
        .query((r, n) -> view(r))
        .list();
  }

  private static ImportView view(ResultSet r) throws SQLException {
    Timestamp finished = r.getTimestamp("finished_at");
    return new ImportView(
        r.getString("id"),
        r.getString("kind"),
        r.getString("format"),
        r.getString("mode"),
        r.getString("standing"),
        r.getLong("bytes"),
        r.getString("body_digest"),
        r.getLong("rows_read"),
        r.getLong("proposed"),
        r.getLong("duplicates"),
        r.getLong("refused"),
        r.getString("actor"),
        r.getTimestamp("started_at").toInstant(),
        finished == null ? null : finished.toInstant());
  }
}
