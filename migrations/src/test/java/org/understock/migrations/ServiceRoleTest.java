package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Set;
import java.util.TreeSet;
import javax.sql.DataSource;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the role of the running service is refused, by its rights alone: before any trigger. */
class ServiceRoleTest {
  private static final String ROLE = "a service's \"role\""; // names are quoted everywhere
  private static final String NOT_ALLOWED = "42501"; // insufficient_privilege

  private static DataSource database;

  @BeforeAll
  static void grant() throws SQLException {
    database = TestDatabase.loaded();
    ServiceRole.grant(database, ROLE, "first");
    ServiceRole.grant(database, ROLE, "second"); // again, as after every migration
  }

  private static void asService(String... sql) throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      try {
        statement.execute("set local role \"" + ROLE.replace("\"", "\"\"") + "\"");
        for (String one : sql) statement.execute(one);
      } finally {
        connection.rollback();
      }
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "drop table audit",
        "drop view compatibility",
        "alter table audit disable trigger all",
        "alter table records add column x text",
        "alter table audit owner to current_user",
        "create table x (y text)",
        "create temporary table x (y text)",
        "create schema x",
        "create or replace function refuse_change() returns trigger language plpgsql as 'begin return null; end'",
        "drop trigger append_only on audit",
        "truncate audit",
        "update audit set actor = 'nobody'",
        "delete from audit",
        "insert into audit (actor, action, subject, detail, at) values ('a', 'b', 'c', 'd', now() - interval '1 year')",
        "update revisions set note = ''",
        "delete from revisions",
        "delete from records",
        "delete from imports",
        "update sources set title = 'another'",
        "update stocks set name = 'another'",
        "insert into crops (id, name, species) values ('x', 'x', 'x')",
        "insert into traits select * from traits",
        "update traits set unit = ''",
        "insert into flyway_schema_history select * from flyway_schema_history",
        "update flyway_schema_history set checksum = 0",
        "delete from flyway_schema_history",
        "set session_replication_role = replica", // would switch all triggers off
        "alter role current_user superuser",
        "create role another",
      })
  void refused(String sql) {
    assertThatThrownBy(() -> asService(sql))
        .isInstanceOfSatisfying(
            SQLException.class,
            e -> assertThat(e.getSQLState()).as(e.getMessage()).isEqualTo(NOT_ALLOWED));
  }

  @Test
  void allowed_is_what_the_service_does() throws SQLException {
    asService(
        "insert into audit (actor, action, subject, detail, request) values ('a', 'b', 'c', 'd', 'e')",
        "insert into sources (id, kind, title, authors, publication, doi_or_isbn, url, note) values ('x', 'peer-reviewed-trial', 'a', 'b', 'c', null, null, '')",
        "update sources set since_revision = 1 where id = 'x'",
        "update records set status = 'withdrawn', revision_to = 2 where id = (select id from records where status = 'accepted' limit 1)",
        "insert into kept_answers (actor, operation, key, fingerprint, status, headers, body, at) values ('a', 'b', 'c', repeat('0', 64), 200, '', '', now() - interval '25 hours')",
        "select from kept_answers for update skip locked",
        "delete from kept_answers where at < now() - interval '24 hours'",
        "listen understock_revisions",
        "select pg_notify('understock_revisions', '2')");
  }

  /** A table that comes later has to be thought of: here, and in the grants. */
  @Test
  void every_table_is_known() throws SQLException {
    Set<String> tables = new TreeSet<>();
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "select relname, has_any_column_privilege('"
                    + ROLE.replace("'", "''")
                    + "', oid, 'insert') as adds from pg_class where relnamespace = 'public'::regnamespace and relkind = 'r'")) {
      while (rows.next())
        tables.add((rows.getBoolean("adds") ? "+" : "") + rows.getString("relname"));
    }
    assertThat(tables)
        .containsExactlyInAnyOrder(
            "crops",
            "traits",
            "trait_subjects",
            "trait_levels",
            "orderings",
            "flyway_schema_history",
            "+revisions",
            "+stocks",
            "+stock_crops",
            "+stock_names",
            "+varieties",
            "+variety_names",
            "+sources",
            "+trials",
            "+records",
            "+audit",
            "+kept_answers",
            "+imports");
  }

  @Test
  void a_role_that_could_do_more_is_not_taken() throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute("create role lord superuser");
      statement.execute("create role heir in role " + connection.getMetaData().getUserName());
    }
    for (String role : new String[] {"lord", "heir"})
      assertThatThrownBy(() -> ServiceRole.grant(database, role, null)).hasMessageContaining(role);
    assertThatThrownBy(() -> ServiceRole.grant(database, "nobody there", null))
        .hasMessageContaining("there is no role nobody there");
  }
}
