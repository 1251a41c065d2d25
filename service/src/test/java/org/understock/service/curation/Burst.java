package org.understock.service.curation;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.UUID;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.understock.service.curation.Client.Answer;

/**
 * Curators at work, all at once, until the service is gone: some propose, some review what was
 * proposed, one imports files. Remembers what was sent and what was answered.
 */
final class Burst {
  /** Rows of a file: enough that it takes longer than a proposal. */
  static final int ROWS = 60;

  private static final int PROPOSERS = 3;
  private static final int REVIEWERS = 2;
  private static final int MOST_IN_A_REVIEW = 6;

  private final Client client;
  private final ExecutorService curators = Executors.newFixedThreadPool(PROPOSERS + REVIEWERS + 1);
  private final Queue<Sent> sent = new ConcurrentLinkedQueue<>();
  private final Queue<String> proposals = new ConcurrentLinkedQueue<>();
  private volatile boolean over;

  /** Kinds of request. */
  enum Kind {
    PROPOSAL,
    REVIEW,
    IMPORT
  }

  /** A request, with what came of it. */
  static final class Sent {
    final Kind kind;
    final String mark;
    final @Nullable String key;
    final String body;
    final List<String> ids;
    volatile @Nullable Answer answer;

    /**
     * @param mark what marks the records that it files: their locator begins so
     * @param key the Idempotency-Key, if it has one
     * @param ids what a review decides on
     */
    Sent(Kind kind, String mark, @Nullable String key, String body, List<String> ids) {
      this.kind = kind;
      this.mark = mark;
      this.key = key;
      this.body = body;
      this.ids = ids;
    }

    boolean acknowledged() {
      Answer a = answer;
      return a != null && a.status() == 201;
    }

    Answer by(Client client) throws IOException, InterruptedException {
      String[] headers = key == null ? new String[0] : new String[] {"Idempotency-Key", key};
      if (kind == Kind.PROPOSAL) return client.propose(body, headers);
      if (kind == Kind.REVIEW) return client.review(body, headers);
      return client.send(
          "POST",
          "/v1/curation/imports?kind=ratings&mode=all-or-nothing",
          client.tokens().proposer(),
          "text/csv",
          body,
          headers);
    }
  }

  Burst(Client client) {
    this.client = client;
    for (int i = 0; i < PROPOSERS; i++) {
      boolean keyed = i > 0;
      curators.submit(() -> work(() -> propose(keyed)));
    }
    for (int i = 0; i < REVIEWERS; i++) {
      boolean keyed = i > 0;
      curators.submit(() -> work(() -> review(keyed)));
    }
    curators.submit(() -> work(this::importFile));
  }

  private interface Task {
    void once() throws IOException, InterruptedException;
  }

  private void work(Task task) {
    try {
      while (!over) task.once();
    } catch (IOException e) {
      over = true; // the service is gone
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void propose(boolean keyed) throws IOException, InterruptedException {
    String mark = "burst " + UUID.randomUUID();
    Sent proposal =
        send(
            new Sent(Kind.PROPOSAL, mark, key(keyed), Client.rating(mark, "resistant"), List.of()));
    if (proposal.acknowledged())
      proposals.add(java.util.Objects.requireNonNull(proposal.answer).json().getString("id"));
    Thread.sleep(25);
  }

  private void review(boolean keyed) throws IOException, InterruptedException {
    List<String> ids = new ArrayList<>();
    for (String id = proposals.poll();
        id != null;
        id = ids.size() < MOST_IN_A_REVIEW ? proposals.poll() : null) ids.add(id);
    if (ids.isEmpty()) {
      Thread.sleep(10);
      return;
    }
    send(new Sent(Kind.REVIEW, "", key(keyed), "{\"accept\": " + Client.list(ids) + "}", ids));
  }

  private void importFile() throws IOException, InterruptedException {
    String mark = "burst " + UUID.randomUUID();
    StringBuilder rows =
        new StringBuilder(
            "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note\n");
    for (int i = 0; i < ROWS; i++)
      rows.append(
          "omafra-susceptibility-table,apple,M.7,fire-blight,resistant,,,,%s row %d,\n"
              .formatted(mark, i));
    send(new Sent(Kind.IMPORT, mark, key(true), rows.toString(), List.of()));
    Thread.sleep(60);
  }

  private static @Nullable String key(boolean keyed) {
    return keyed ? UUID.randomUUID().toString() : null;
  }

  private Sent send(Sent request) throws IOException, InterruptedException {
    sent.add(request);
    request.answer = request.by(client);
    return request;
  }

  /**
   * Waits until all curators have noticed that the service is gone. @return everything that was
   * sent
   */
  List<Sent> end() throws InterruptedException {
    over = true;
    curators.shutdown();
    if (!curators.awaitTermination(60, TimeUnit.SECONDS))
      throw new IllegalStateException("a curator still waits for an answer");
    return List.copyOf(sent);
  }
}
