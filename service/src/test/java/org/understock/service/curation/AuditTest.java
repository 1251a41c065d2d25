package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.understock.service.curation.Client.Answer;

/**
 * Every deed leaves one line for each thing that it was done to, under the id of its request, in
 * one transaction with what it did.
 */
class AuditTest extends TwoReplicas {
  @Test
  void every_deed_leaves_a_line_for_each_of_its_subjects() throws Exception {
    String mark = UUID.randomUUID().toString().substring(0, 8);
    leaves(
        propose(
            "sources",
            """
        {"id": "diary-%1$s", "kind": "handbook", "title": "An invented diary", "year": "2024"}""",
            mark),
        "propose source diary-" + mark);
    leaves(
        propose(
            "stocks",
            """
        {"id": "dale-%1$s", "name": "Dale %1$s", "kind": "clone", "crops": ["apple"]}""",
            mark),
        "propose stock dale-" + mark);
    leaves(
        propose(
            "varieties",
            """
        {"id": "fell-%1$s", "crop": "apple", "name": "Fell %1$s"}""",
            mark),
        "propose variety fell-" + mark);
    String statement =
        """
        {"subject": {"stock": "dale-%1$s", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "resistant"}, "method": "expert-rating",
         "source": "diary-%1$s", "locator": "%2$s"}""";
    Answer filed = one.propose(statement.formatted(mark, "page 1"));
    String first = filed.json().getString("id");
    leaves(filed, "propose record " + first);
    String key = UUID.randomUUID().toString();
    Answer keyed = one.propose(statement.formatted(mark, "page 2"), "Idempotency-Key", key);
    String second = keyed.json().getString("id");
    leaves(keyed, "propose record " + second);
    leaves(one.propose(statement.formatted(mark, "page 2"), "Idempotency-Key", key));
    leaves(one.propose(statement.formatted(mark, "page 2")));
    leaves(amend(first, statement.formatted(mark, "page 3")), "amend record " + first);
    leaves(amend(first, statement.formatted(mark, "page 4"))); // stale by now

    leaves(one.review("{\"reject\": [\"" + second + "\"]}"), "reject record " + second);
    Answer accepted =
        one.review(
            "{\"accept\": [\""
                + first
                + "\"], \"varieties\": [\"fell-"
                + mark
                + "\"], \"note\": \"read\"}");
    long revision = accepted.json().getLong("revision");
    leaves(
        accepted,
        "accept source diary-" + mark,
        "accept stock dale-" + mark,
        "accept variety fell-" + mark,
        "accept record " + first,
        "revise revision " + revision);
    assertThat(
            count(
                "select count(*) from audit where request = ? and revision = ?",
                accepted.request(),
                revision))
        .isEqualTo(5);
    leaves(one.review("{\"accept\": [\"" + first + "\"]}"));

    String superseding =
        statement
            .formatted(mark, "page 5")
            .replace("\"locator\"", "\"supersedes\": \"" + first + "\", \"locator\"");
    String successor = one.propose(superseding).json().getString("id");
    leaves(
        one.review("{\"accept\": [\"" + successor + "\"]}"),
        "accept record " + successor,
        "supersede record " + first,
        "revise revision " + (revision + 1));
    leaves(
        one.review("{\"withdraw\": [\"" + successor + "\"]}"),
        "withdraw record " + successor,
        "revise revision " + (revision + 2));
    leaves(one.getAs(one.tokens().reviewer(), "/v1/curation/audit?subject=record " + first));
    assertThat(
            one.getAs(one.tokens().reviewer(), "/v1/curation/audit?subject=record " + first)
                .json()
                .getList("items.action"))
        .containsExactly("propose", "amend", "accept", "supersede");
    awaitRevision(other, revision + 2);
  }

  @Test
  void a_file_leaves_a_line_for_itself_and_one_for_each_of_its_rows() throws Exception {
    String mark = once("file");
    String csv =
        """
        source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note
        omafra-susceptibility-table,apple,M.7,fire-blight,resistant,,,,%1$s 1,
        omafra-susceptibility-table,apple,M.7,fire-blight,resistant,,,,%1$s 2,
        """
            .formatted(mark);
    Answer imported =
        one.send(
            "POST", "/v1/curation/imports?kind=ratings", one.tokens().proposer(), "text/csv", csv);
    assertThat(imported.status()).as(imported.text()).isEqualTo(201);
    List<String> ids =
        database.queryForList(
            "select id from records where locator like ?", String.class, mark + "%");
    leaves(
        imported,
        "propose record " + ids.get(0),
        "propose record " + ids.get(1),
        "import import " + imported.json().getString("id"));
    leaves(
        one.send(
            "POST",
            "/v1/curation/imports?kind=ratings",
            one.tokens().proposer(),
            "text/csv",
            csv.replace("M.7", "M.7777")));
    Answer accepted = one.review("{\"acceptImport\": \"" + imported.json().getString("id") + "\"}");
    leaves(
        accepted,
        "accept record " + ids.get(0),
        "accept record " + ids.get(1),
        "revise revision " + accepted.json().getLong("revision"));
    awaitRevision(other, accepted.json().getLong("revision"));
  }

  @Test
  void the_trace_that_a_client_brings_stands_in_the_audit() throws Exception {
    String trace = UUID.randomUUID().toString().replace("-", "");
    Answer filed =
        one.propose(
            Client.rating(once("traced"), "resistant"),
            "traceparent",
            "00-" + trace + "-00f067aa0ba902b7-01");
    assertThat(filed.request()).isEqualTo(trace);
    leaves(filed, "propose record " + filed.json().getString("id"));
  }

  /** The deed and its line are one: when the line can't be written, nothing is done. */
  @Test
  void without_its_line_nothing_is_done() throws Exception {
    String id = one.proposed(once("no line"));
    long before = count("select max(number) from revisions");
    String locator = once("no line");
    database.execute("alter table audit add constraint no_more check (id < 0) not valid");
    try {
      assertThat(one.propose(Client.rating(locator, "resistant")).status()).isEqualTo(500);
      assertThat(one.review("{\"accept\": [\"" + id + "\"]}").status()).isEqualTo(500);
    } finally {
      database.execute("alter table audit drop constraint no_more");
    }
    assertThat(count("select count(*) from records where locator = ?", locator)).isZero();
    assertThat(count("select max(number) from revisions")).isEqualTo(before);
    assertThat(one.latest()).isEqualTo(before);
    assertThat(database.queryForObject("select status from records where id = ?", String.class, id))
        .isEqualTo("proposed");
  }

  @Test
  void nobody_changes_a_line() {
    for (String change :
        List.of("update audit set request = 'other'", "delete from audit", "truncate audit")) {
      assertThatThrownBy(() -> database.execute(change))
          .as(change)
          .hasMessageContaining("append-only");
    }
  }

  private static Answer propose(String path, String body, String mark) throws Exception {
    Answer answer =
        one.send(
            "POST",
            "/v1/curation/" + path,
            one.tokens().proposer(),
            "application/json",
            body.formatted(mark));
    assertThat(answer.status()).as(answer.text()).isEqualTo(201);
    return answer;
  }

  private static Answer amend(String id, String statement) throws Exception {
    return one.send(
        "PUT",
        "/v1/curation/records/" + id,
        one.tokens().proposer(),
        "application/json",
        statement,
        "If-Match",
        "\"" + id + ".0\"");
  }

  private static void leaves(Answer answer, String... lines) {
    assertThat(
            database.queryForList(
                "select action || ' ' || subject from audit where request = ? order by id",
                String.class,
                answer.request()))
        .as(answer.text())
        .containsExactlyInAnyOrder(lines);
  }
}
