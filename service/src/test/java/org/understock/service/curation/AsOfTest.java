package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.understock.service.curation.Client.Answer;

/**
 * Whatever was answered when a revision was the latest is answered as of it later, byte for byte,
 * on both replicas, however often its snapshot had to be rebuilt.
 */
class AsOfTest extends TwoReplicas {
  /** More than a replica keeps compiled. */
  private static final int REVISIONS = 6;

  private static final List<String> ADVICE =
      List.of(
          """
      {"crop": "apple", "site": {"pressures": ["fire-blight"]}, "candidates": {"stocks": ["m-7", "m-9"], "varieties": ["gala"]}, "limit": 5%s}""",
          """
      {"crop": "sweet-cherry", "goal": {"purpose": "home-garden"}, "candidates": {"varieties": ["bing"]}, "limit": 3%s}""");

  private static final List<String> READS =
      List.of(
          "/v1/stocks?crop=apple&limit=200",
          "/v1/stocks/m-7?",
          "/v1/stocks?q=mm 106&limit=5",
          "/v1/varieties?crop=apple&limit=50",
          "/v1/varieties/gala?",
          "/v1/traits?limit=200",
          "/v1/traits/fire-blight?",
          "/v1/sources?limit=200",
          "/v1/sources/omafra-susceptibility-table?",
          "/v1/crops?",
          "/v1/estimates?crop=apple&subject=m-7&limit=200",
          "/v1/estimates?crop=apple&trait=fire-blight&limit=200");

  @Test
  void every_revision_answers_as_it_did_when_it_was_the_latest() throws Exception {
    Map<Long, Map<String, String>> then = new LinkedHashMap<>();
    List<String> mine = new ArrayList<>();
    then.put(one.latest(), asked(one, mine, null));
    for (int i = 0; i < REVISIONS; i++) {
      long revision = change(i, mine);
      then.put(revision, asked(one, mine, null));
    }
    awaitRevision(other, one.latest());
    List<Long> revisions = new ArrayList<>(then.keySet());
    assertThat(then.get(revisions.get(0)))
        .as("revisions differ: there is something to tell apart")
        .isNotEqualTo(then.get(revisions.get(REVISIONS)));
    /* To and fro, so that snapshots fall out of what is kept and are rebuilt. */
    List<Integer> walk = List.of(0, 6, 1, 5, 2, 4, 3, 0);
    for (Client client : List.of(one, other)) {
      for (int place : walk) {
        long revision = revisions.get(place);
        Map<String, String> now = asked(client, mine, revision);
        then.get(revision)
            .forEach(
                (question, answer) ->
                    assertThat(now.get(question))
                        .as("as of " + revision + ": " + question)
                        .isEqualTo(answer));
      }
    }
  }

  /**
   * A change of the evidence: a rating more, a new stock, one rating in another's place, one
   * withdrawn. @return the revision that it made
   */
  private static long change(int i, List<String> mine) throws Exception {
    Answer reviewed;
    if (i == 2) {
      String mark = UUID.randomUUID().toString().substring(0, 8);
      assertThat(
              one.send(
                      "POST",
                      "/v1/curation/stocks",
                      one.tokens().proposer(),
                      "application/json",
                      "{\"id\": \"tarn-%1$s\", \"name\": \"Tarn %1$s\", \"kind\": \"clone\", \"crops\": [\"apple\"]}"
                          .formatted(mark))
                  .status())
          .isEqualTo(201);
      mine.add(
          one.propose(Client.rating(once("as of"), "resistant").replace("m-7", "tarn-" + mark))
              .json()
              .getString("id"));
      reviewed = one.accepted(List.of(mine.get(mine.size() - 1)));
    } else if (i == 3) {
      String old = mine.get(0);
      String successor =
          Client.rating(once("as of"), "very-susceptible")
              .replace("\"locator\"", "\"supersedes\": \"" + old + "\", \"locator\"");
      mine.add(one.propose(successor).json().getString("id"));
      reviewed = one.accepted(List.of(mine.get(mine.size() - 1)));
    } else if (i == 4) {
      reviewed = one.review("{\"withdraw\": [\"" + mine.get(1) + "\"]}");
    } else {
      mine.add(
          one.propose(Client.rating(once("as of"), i % 2 == 0 ? "immune" : "susceptible"))
              .json()
              .getString("id"));
      reviewed = one.accepted(List.of(mine.get(mine.size() - 1)));
    }
    assertThat(reviewed.status()).as(reviewed.text()).isEqualTo(201);
    return reviewed.json().getLong("revision");
  }

  /**
   * Answers to everything that can be asked as of a revision; as of the latest when none is named.
   */
  private static Map<String, String> asked(Client client, List<String> records, Long revision)
      throws Exception {
    Map<String, String> answers = new LinkedHashMap<>();
    for (String question : ADVICE) {
      Answer answer =
          client.post(
              "/v1/advice",
              question.formatted(revision == null ? "" : ", \"revision\": " + revision));
      assertThat(answer.status()).as(answer.text()).isEqualTo(200);
      answers.put(question, answer.text());
    }
    List<String> reads = new ArrayList<>(READS);
    for (String record : records) reads.add("/v1/records/" + record + "?");
    for (String read : reads) {
      Answer answer = client.get(read + (revision == null ? "" : "&revision=" + revision));
      boolean known = !read.startsWith("/v1/records/") || answer.status() != 404;
      if (known) assertThat(answer.status()).as(read + ": " + answer.text()).isEqualTo(200);
      answers.put(read, known ? answer.text() : "not found");
    }
    return answers;
  }

  @Test
  void a_walk_stays_in_the_revision_in_which_it_began() throws Exception {
    for (String list :
        List.of(
            "/v1/stocks?crop=apple&limit=40",
            "/v1/estimates?crop=apple&trait=fire-blight&limit=12")) {
      long begun = one.latest();
      List<String> whole = walk(one, list + "&revision=" + begun, page -> {});
      assertThat(whole).hasSizeGreaterThan(2);
      List<String> through =
          walk(
              one,
              list,
              page -> {
                if (page > 2) return;
                String mark = UUID.randomUUID().toString().substring(0, 8);
                one.send(
                    "POST",
                    "/v1/curation/stocks",
                    one.tokens().proposer(),
                    "application/json",
                    "{\"id\": \"beck-%1$s\", \"name\": \"Beck %1$s\", \"kind\": \"clone\", \"crops\": [\"apple\"]}"
                        .formatted(mark));
                one.accepted(
                    List.of(
                        one.propose(
                                Client.rating(once("walk"), "resistant")
                                    .replace("m-7", "beck-" + mark))
                            .json()
                            .getString("id")));
              });
      assertThat(one.latest()).as("revisions were made under the walk").isGreaterThan(begun);
      assertThat(through).as(list).isEqualTo(whole);
      awaitRevision(other, one.latest());
      assertThat(walk(other, list + "&revision=" + begun, page -> {}))
          .as("on the other replica")
          .isEqualTo(whole);
    }
  }

  private interface Between {
    void pages(int page) throws Exception;
  }

  /** Items of all pages, each as it was written. */
  private static List<String> walk(Client client, String list, Between between) throws Exception {
    List<String> pages = new ArrayList<>();
    String path = list;
    for (int page = 1; path != null; page++) {
      Answer answer = client.get(path);
      assertThat(answer.status()).as(path + ": " + answer.text()).isEqualTo(200);
      pages.add(
          new String(answer.body(), StandardCharsets.UTF_8).replaceAll("\"next\":\"[^\"]*\"", ""));
      String next = answer.json().getString("next");
      between.pages(page);
      path = next == null ? null : list.replaceAll("&revision=\\d+", "") + "&cursor=" + next;
    }
    return pages;
  }
}
