package org.understock.service.curation;

import java.sql.Timestamp;
import java.sql.Types;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.SqlParameterValue;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * The append-only trail of who did what, when, in answer to which request. The database itself
 * refuses to change or delete a line of it.
 */
@Component
class AuditTrail {
  private final JdbcClient database;

  AuditTrail(JdbcClient database) {
    this.database = database;
  }

  /**
   * One line of the trail.
   *
   * @param action what was done: propose, amend, accept, reject, withdraw, supersede, revise,
   *     import, load
   * @param subject what it was done to: {@code record r-…}, {@code source …}, {@code stock …},
   *     {@code variety …}, {@code revision …}, {@code import …}
   * @param revision the revision that came of it
   * @param detail the statement after it, or the note given with it
   */
  record Line(
      long id,
      Instant at,
      String actor,
      String action,
      String subject,
      @Nullable Long revision,
      String detail,
      @Nullable String request) {}

  /** What to look for; every part may be left out. */
  record Filter(
      @Nullable String actor,
      @Nullable String action,
      @Nullable String subject,
      @Nullable Long revision,
      @Nullable Instant since) {}

  /** Writes a line in the transaction of what it tells. */
  void write(Deed deed, String action, String subject, @Nullable Long revision, String detail) {
    database
        .sql(
            "insert into audit (actor, action, subject, revision, detail, request) values (?, ?, ?, ?, ?, ?)")
        .param(deed.actor())
        .param(action)
        .param(subject)
        .param(new SqlParameterValue(Types.BIGINT, revision))
        .param(detail)
        .param(deed.request())
        .update();
  }

  /** Writes a line for each of many records. */
  void writeAll(
      Deed deed,
      String action,
      Collection<String> records,
      @Nullable Long revision,
      String detail) {
    if (records.isEmpty()) return;
    database
        .sql(
            "insert into audit (actor, action, subject, revision, detail, request) select ?, ?, 'record ' || id, ?, ?, ? from unnest(?) as id")
        .param(deed.actor())
        .param(action)
        .param(new SqlParameterValue(Types.BIGINT, revision))
        .param(detail)
        .param(deed.request())
        .param(records.toArray(new String[0]))
        .update();
  }

  /** Lines in the order in which they were written, after a line. */
  List<Line> list(Filter filter, long after, int limit) {
    StringBuilder sql = new StringBuilder("select * from audit where id > ?");
    List<Object> values = new ArrayList<>(List.of(after));
    add(sql, values, " and actor = ?", filter.actor());
    add(sql, values, " and action = ?", filter.action());
    add(sql, values, " and subject = ?", filter.subject());
    add(sql, values, " and revision = ?", filter.revision());
    add(
        sql,
        values,
        " and at >= ?",
        filter.since() == null ? null : Timestamp.from(filter.since()));
    values.add(limit);
    return database
        .sql(sql.append(" order by id limit ?").toString())
        .params(values)
        .query(
            (r, n) ->
                new Line(
                    r.getLong("id"),
                    r.getTimestamp("at").toInstant(),
                    r.getString("actor"),
                    r.getString("action"),
                    r.getString("subject"),
                    r.getObject("revision", Long.class),
                    r.getString("detail"),
                    r.getString("request")))
        .list();
  }

  private static void add(
      StringBuilder sql, List<Object> values, String condition, @Nullable Object value) {
    if (value == null) return;
    sql.append(condition);
    values.add(value);
  }
}
