package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import javax.sql.DataSource;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the database itself refuses, whoever holds the connection. Every case changes one thing of a
 * row that is known to be taken.
 */
class DatabaseRefusalTest {
  private static DataSource database;
  private Connection connection;

  @BeforeAll
  static void load() throws SQLException {
    database = TestDatabase.loaded();
  }

  @BeforeEach
  void begin() throws SQLException {
    connection = database.getConnection();
    connection.setAutoCommit(false);
  }

  @AfterEach
  void undo() throws SQLException {
    connection.rollback();
    connection.close();
  }

  /** A proposal of a level: the contract's own example, not a fact. */
  private static Map<String, String> level() {
    Map<String, String> row = new LinkedHashMap<>();
    row.put("id", "r-0000000000000001");
    row.put("status", "proposed");
    row.put("crop", "apple");
    row.put("subject", "stock");
    row.put("stock", "m-7");
    row.put("trait", "fire-blight");
    row.put("scale", "levels");
    row.put("unit", "");
    row.put("level", "resistant");
    row.put("method", "expert-rating");
    row.put("source", "omafra-susceptibility-table");
    row.put("locator", "table 2");
    row.put("note", "");
    row.put("proposed_by", "a test");
    row.put("content_key", "0000000000000001");
    return row;
  }

  private static Map<String, String> quantity() {
    Map<String, String> row = level();
    row.remove("level");
    row.putAll(
        Map.of(
            "trait",
            "mature-height",
            "scale",
            "quantity",
            "unit",
            "m",
            "value_low",
            "3",
            "value_high",
            "4"));
    return row;
  }

  private void insert(Map<String, String> row) throws SQLException {
    StringBuilder values = new StringBuilder();
    row.values()
        .forEach(
            v ->
                values
                    .append(values.isEmpty() ? "" : ", ")
                    .append(v == null ? "null" : "'" + v.replace("'", "''") + "'"));
    run("insert into records (" + String.join(", ", row.keySet()) + ") values (" + values + ")");
  }

  private void run(String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  @Test
  void theRowsThatTheCasesChangeAreTaken() throws SQLException {
    insert(level());
    Map<String, String> second = quantity();
    second.put("id", "r-0000000000000002");
    second.put("content_key", "0000000000000002");
    insert(second);
  }

  @Test
  void oneStatementAsTwoLivingRecords() throws SQLException {
    insert(level());
    Map<String, String> again = level();
    again.put("id", "r-0000000000000002");
    run("savepoint before");
    assertThatThrownBy(() -> insert(again)).hasMessageContaining("one_living_record_per_statement");
    run("rollback to before");
    run("update records set status = 'rejected' where id = 'r-0000000000000001'");
    insert(again);
  }

  @Test
  void aProposalKeepsItsProposerAndCountsItsVersions() throws SQLException {
    insert(level());
    run("update records set level = 'susceptible' where id = 'r-0000000000000001'");
    try (Statement statement = connection.createStatement();
        var row =
            statement.executeQuery("select version from records where id = 'r-0000000000000001'")) {
      row.next();
      assertThat(row.getLong(1)).isOne();
    }
    assertThatThrownBy(
            () -> run("update records set proposed_by = 'another' where id = 'r-0000000000000001'"))
        .hasMessageContaining("can't be changed");
  }

  @ParameterizedTest(name = "{0} = {1}")
  @CsvSource(
      nullValues = "null",
      value = {
        "id, not-an-id, records_id_check",
        "id, null, null value",
        "content_key, zz, records_content_key_check",
        "content_key, null, null value",
        "reviewed_by, somebody, review_is_whole",
        "status, unheard-of, records_status_check",
        "status, accepted, status_fits_revisions",
        "crop, mango, records_crop_fkey",
        "subject, variety, subject_is_whole",
        "subject, pairing, subject_is_whole",
        "stock, m-77, records_stock_fkey",
        "variety, fuji, subject_is_whole",
        "reach, all, subject_is_whole",
        "trait, no-such-trait, violates foreign key",
        "trait, scab, records_trait_subject_fkey",
        "scale, names, value_fits_scale",
        "unit, m, records_trait_unit_fkey",
        "level, compatible, records_trait_level_fkey",
        "level, null, value_fits_scale",
        "value_low, 3, value_fits_scale",
        "value_name, resistant, value_fits_scale",
        "method, hearsay, records_method_check",
        "method, from-memory, memory_is_tagged",
        "source, memory, memory_is_tagged",
        "method, common-practice, common_practice_is_tagged",
        "source, no-such-source, records_source_fkey",
        "source, null, null value",
        "locator, ' ', records_locator_check",
        "trial, no-such-trial, records_trial_fkey",
        "planted_year, 1066, records_planted_year_check",
        "trees, 0, records_trees_check",
        "spread_kind, SE, spread_is_whole",
        "spread_value, 2, spread_is_whole",
        "revision_from, 1, status_fits_revisions",
        "age_years, -1, records_age_years_check"
      })
  void wrongInARating(String column, String value, String because) {
    Map<String, String> row = level();
    row.put(column, value);
    assertThatThrownBy(() -> insert(row))
        .isInstanceOf(SQLException.class)
        .hasMessageContaining(because);
  }

  @ParameterizedTest(name = "{0} to {1}")
  @CsvSource(
      nullValues = "null",
      value = {
        "4, 3, range_runs_up",
        "null, null, value_fits_scale",
        "3, 99, must lie between",
        "-1, 3, must lie between",
        "NaN, NaN, must lie between",
        "3, Infinity, must lie between"
      })
  void wrongInAQuantity(String low, String high, String because) {
    Map<String, String> row = quantity();
    row.put("value_low", low);
    row.put("value_high", high);
    assertThatThrownBy(() -> insert(row))
        .isInstanceOf(SQLException.class)
        .hasMessageContaining(because);
  }

  @Test
  void aMeasurementBeforeThePlanting() {
    Map<String, String> row = level();
    row.putAll(Map.of("planted_year", "2010", "measured_year", "2009"));
    assertThatThrownBy(() -> insert(row)).hasMessageContaining("years_run_up");
  }

  @Test
  void aDifferenceFromNoVariety() {
    Map<String, String> row = quantity();
    row.remove("stock");
    row.putAll(
        Map.of(
            "subject",
            "variety",
            "variety",
            "fuji",
            "trait",
            "bloom-day",
            "scale",
            "interval",
            "unit",
            "days",
            "value_high",
            "3"));
    assertThatThrownBy(() -> insert(row)).hasMessageContaining("difference_names_its_zero");
  }

  @Test
  void aVarietyOfAnotherCrop() {
    Map<String, String> row = level();
    row.remove("stock");
    row.putAll(Map.of("subject", "variety", "variety", "bing"));
    assertThatThrownBy(() -> insert(row)).hasMessageContaining("records_variety_crop_fkey");
  }

  @Test
  void aTrialMeanThatIsARange() {
    Map<String, String> row = quantity();
    row.putAll(Map.of("trait", "tree-height", "scale", "contrast"));
    assertThatThrownBy(() -> insert(row)).hasMessageContaining("value_fits_scale");
  }

  @Test
  void theSameRecordTwice() throws SQLException {
    insert(level());
    assertThatThrownBy(() -> insert(level())).hasMessageContaining("records_pkey");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "records",
        "sources",
        "revisions",
        "traits",
        "trait_levels",
        "trait_subjects",
        "stocks",
        "stock_names",
        "stock_crops",
        "varieties",
        "variety_names",
        "crops",
        "trials",
        "orderings",
        "audit"
      })
  void historyIsNotDeleted(String table) throws SQLException {
    assertThatThrownBy(() -> run("delete from " + table)).hasMessageContaining("append-only");
    connection.rollback();
    assertThatThrownBy(() -> run("truncate " + table + " cascade"))
        .hasMessageContaining("append-only");
  }

  /**
   * Holds for tables to come: none is without a guard against deleting and emptying, and only how
   * far an import is may change freely.
   */
  @ParameterizedTest
  @CsvSource({"DELETE, 8, ''", "TRUNCATE, 32, ''", "UPDATE, 16, imports"})
  void everyTableIsGuarded(String operation, int bit, String free) throws SQLException {
    try (Statement statement = connection.createStatement();
        var row =
            statement.executeQuery(
                """
        select coalesce(string_agg(relname, ' ' order by relname), '') from pg_class c
        where relkind = 'r' and relnamespace = 'public'::regnamespace and relname <> 'flyway_schema_history' and not exists (
          select from pg_trigger t where t.tgrelid = c.oid and t.tgenabled = 'O' and t.tgtype & 2 = 2 and t.tgtype & %1$d = %1$d)"""
                    .formatted(bit))) {
      row.next();
      assertThat(row.getString(1)).as("tables open to " + operation).isEqualTo(free);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "update sources set title = 'other' where id = 'memory'",
        "update revisions set note = 'other'",
        "update audit set actor = 'other'",
        "update stocks set name = 'other' where id = 'm-7'",
        "update trait_levels set position = 9 where level = 'immune'",
        "update sources set since_revision = null where id = 'memory'",
        "update crops set name = 'other'"
      })
  void historyIsNotRewritten(String update) {
    assertThatThrownBy(() -> run(update)).hasMessageContaining("append-only");
  }

  /** Whoever sent a request relies on its answer for a day. */
  @Test
  void aKeptAnswerGoesAwayOnlyWhenItIsDue() throws SQLException {
    String keep =
        "insert into kept_answers (actor, operation, key, fingerprint, status, headers, body, at)"
            + " values ('a test', 'POST /', '%s', repeat('a', 64), 201, '', '', %s)";
    run(keep.formatted("fresh", "now()"));
    run(keep.formatted("old", "now() - interval '25 hours'"));
    for (String change :
        new String[] {
          "update kept_answers set status = 200",
          "update kept_answers set at = now() - interval '25 hours' where key = 'fresh'",
          "delete from kept_answers",
          "truncate kept_answers"
        }) {
      run("savepoint before");
      assertThatThrownBy(() -> run(change)).as(change).hasMessageContaining("append-only");
      run("rollback to before");
    }
    run("delete from kept_answers where at <= now() - interval '24 hours'");
    try (Statement statement = connection.createStatement();
        var row = statement.executeQuery("select string_agg(key, ' ') from kept_answers")) {
      row.next();
      assertThat(row.getString(1)).isEqualTo("fresh");
    }
  }

  @ParameterizedTest
  @CsvSource({"reviewed_by = 'another'", "reviewed_at = now()", "review_note = 'other'"})
  void whoReviewedARecordStays(String change) throws SQLException {
    insert(level());
    String one = " where id = 'r-0000000000000001'";
    run(
        "update records set status = 'rejected', reviewed_by = 'a reviewer', reviewed_at = now(), review_note = 'why'"
            + one);
    assertThatThrownBy(() -> run("update records set " + change + one))
        .hasMessageContaining("can't go from rejected to rejected");
  }

  @ParameterizedTest
  @CsvSource({
    "level = 'immune'",
    "note = 'other'",
    "source = 'ext-apples-rootstock-info'",
    "id = 'r-00000000000000ff'"
  })
  void theContentOfAnAcceptedRecordStays(String change) {
    assertThatThrownBy(
            () ->
                run(
                    "update records set "
                        + change
                        + " where trait = 'fire-blight' and stock = 'm-7' and level = 'moderately-resistant'"))
        .hasMessageContaining("can't be changed");
  }

  @Test
  void aProposalMayBeEditedAndIsThenFixed() throws SQLException {
    insert(level());
    run("update records set level = 'susceptible' where id = 'r-0000000000000001'");
    run("update records set status = 'rejected' where id = 'r-0000000000000001'");
    assertThatThrownBy(
            () -> run("update records set level = 'immune' where id = 'r-0000000000000001'"))
        .hasMessageContaining("can't be changed");
  }

  @ParameterizedTest(name = "{0} to {1}")
  @CsvSource({
    "accepted, proposed",
    "accepted, rejected",
    "rejected, accepted",
    "withdrawn, accepted",
    "superseded, withdrawn",
    "proposed, withdrawn"
  })
  void standingOnlyMovesForward(String from, String to) throws SQLException {
    run(next("'" + "a".repeat(64) + "'"));
    insert(level());
    String one = " where id = 'r-0000000000000001'";
    if (from.equals("rejected")) run("update records set status = 'rejected'" + one);
    if (Set.of("accepted", "withdrawn", "superseded").contains(from))
      run("update records set status = 'accepted', revision_from = 1" + one);
    if (Set.of("withdrawn", "superseded").contains(from))
      run("update records set status = '" + from + "', revision_to = 2" + one);
    String revisions =
        switch (to) {
          case "accepted" -> ", revision_from = 1, revision_to = null";
          case "withdrawn" -> ", revision_from = 1, revision_to = 2";
          default -> ", revision_from = null, revision_to = null";
        };
    assertThatThrownBy(() -> run("update records set status = '" + to + "'" + revisions + one))
        .hasMessageContaining("can't go from " + from + " to " + to);
  }

  @Test
  void standingThatIsLegalIsTaken() throws SQLException {
    run(next("'" + "a".repeat(64) + "'"));
    insert(level());
    run(
        "update records set status = 'accepted', revision_from = 1 where id = 'r-0000000000000001'");
    run("update records set status = 'withdrawn', revision_to = 2 where id = 'r-0000000000000001'");
  }

  private static String next(String digest) {
    return "insert into revisions (number, digest, previous_digest, note, created_by) select 2, "
        + digest
        + ", digest, 'n', 'a test' from revisions where number = 1";
  }

  @Test
  void aNextRevisionIsTaken() throws SQLException {
    run(next("'" + "a".repeat(64) + "'"));
  }

  @Test
  void aRevisionThatLeavesAGap() {
    assertThatThrownBy(() -> run(next("'" + "a".repeat(64) + "'").replace("select 2", "select 3")))
        .hasMessageContaining("does not follow revision 1");
  }

  @Test
  void aRevisionThatIsNotChained() {
    assertThatThrownBy(
            () ->
                run(
                    "insert into revisions (number, digest, previous_digest, note, created_by) values (2, repeat('a', 64), null, 'n', 'a test')"))
        .hasMessageContaining("is not chained");
  }

  @Test
  void aSourceThatRestatesItself() {
    assertThatThrownBy(
            () ->
                run(
                    "insert into sources (id, kind, title, authors, publication, note, origin) values ('x', 'handbook', 't', '', '', '', 'x')"))
        .hasMessageContaining("sources_check");
  }
}
