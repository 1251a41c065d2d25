package org.understock.service.curation;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import org.understock.evidence.Canonical;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import tools.jackson.databind.json.JsonMapper;

/**
 * Carries out a request with an {@code Idempotency-Key} once, however often and wherever it is
 * sent: the answer is kept in the transaction of its effect, so either both are there or neither.
 * Refused requests had no effect and are not kept: sent again, they are judged anew.
 */
@Component
class KeptAnswers {
  static final String TOLD =
      "Stands for this request (RFC 9651 string, quoted or bare; 1 to 128 of `A-Z a-z 0-9 . _ ~ -`). Sent again within 24 hours with the same"
          + " body, the request is not carried out again and the first answer comes back, with `Idempotency-Replayed: true`; with another body it is refused. Refusals are"
          + " not kept.";

  private static final Pattern KEY = Pattern.compile("\"?([A-Za-z0-9._~-]{1,128})\"?");
  private static final String RUNNING = "select pg_try_advisory_xact_lock(hashtextextended(?, 0))";

  /**
   * Passes over what another request is purging: two that clear the same rows would wait for each
   * other, at worst for ever.
   */
  private static final String PURGE =
      """
      delete from kept_answers where (actor, operation, key) in
        (select actor, operation, key from kept_answers where at <= now() - interval '24 hours' for update skip locked)""";

  private final JdbcClient database;
  private final TransactionTemplate transaction;
  private final JsonMapper json;

  KeptAnswers(JdbcClient database, PlatformTransactionManager transactions, JsonMapper json) {
    this.database = database;
    this.transaction = new TransactionTemplate(transactions);
    this.json = json;
  }

  private record Kept(String fingerprint, int status, String headers, byte[] body) {}

  /**
   * Carries out a request, or gives the answer that it had.
   *
   * @param operation method and path
   * @param key the header as sent; without one the request is carried out whenever it comes
   * @param body what makes two requests the same
   * @param type type of the answer's body
   */
  <T> ResponseEntity<T> once(
      Deed deed,
      String operation,
      @Nullable String key,
      Object body,
      Class<T> type,
      Supplier<ResponseEntity<T>> work) {
    if (key == null) return inOne(work);
    Matcher form = KEY.matcher(key);
    if (!form.matches()) {
      throw ProblemException.of(
          ProblemType.MALFORMED_REQUEST,
          "The Idempotency-Key can't be used.",
          List.of(
              new ProblemError(
                  null,
                  "Idempotency-Key",
                  "is not a key",
                  "1 to 128 letters, digits, '.', '_', '~' and '-', quoted or bare",
                  key,
                  null)));
    }
    String fingerprint =
        Canonical.sha256(body instanceof String text ? text : json.writeValueAsString(body));
    return inOne(() -> once(deed.actor(), operation, form.group(1), fingerprint, type, work));
  }

  private <T> ResponseEntity<T> inOne(Supplier<ResponseEntity<T>> work) {
    ResponseEntity<T> answer = transaction.execute(status -> work.get());
    if (answer == null) throw new IllegalStateException("no answer");
    return answer;
  }

  private <T> ResponseEntity<T> once(
      String actor,
      String operation,
      String key,
      String fingerprint,
      Class<T> type,
      Supplier<ResponseEntity<T>> work) {
    if (!database
        .sql(RUNNING)
        .param(actor + '\n' + operation + '\n' + key)
        .query(Boolean.class)
        .single()) {
      throw ProblemException.of(
              ProblemType.CONFLICT,
              "The request with this Idempotency-Key is still being carried out.",
              List.of())
          .withHeader(HttpHeaders.RETRY_AFTER, "1");
    }
    Optional<Kept> kept =
        database
            .sql(
                "select fingerprint, status, headers, body from kept_answers where actor = ? and operation = ? and key = ? and at > now() - interval '24 hours'")
            .params(actor, operation, key)
            .query((r, n) -> new Kept(r.getString(1), r.getInt(2), r.getString(3), r.getBytes(4)))
            .optional();
    if (kept.isPresent()) return again(kept.get(), key, fingerprint, type);
    ResponseEntity<T> answer = work.get();
    HttpHeaders headers = answer.getHeaders();
    String told =
        String.valueOf(headers.getFirst(HttpHeaders.LOCATION))
            + '\n'
            + headers.getFirst(HttpHeaders.ETAG);
    database.sql(PURGE).update();
    database
        .sql(
            "insert into kept_answers (actor, operation, key, fingerprint, status, headers, body) values (?, ?, ?, ?, ?, ?, ?)")
        .params(
            actor,
            operation,
            key,
            fingerprint,
            answer.getStatusCode().value(),
            told,
            json.writeValueAsBytes(answer.getBody()))
        .update();
    return answer;
  }

  private <T> ResponseEntity<T> again(Kept kept, String key, String fingerprint, Class<T> type) {
    if (!kept.fingerprint().equals(fingerprint)) {
      throw ProblemException.of(
          ProblemType.KEY_REUSED,
          "The Idempotency-Key '" + key + "' was sent with another request before.",
          List.of(
              new ProblemError(
                  null, "Idempotency-Key", "stands for another request", "a new key", key, null)));
    }
    String[] told = kept.headers().split("\n");
    ResponseEntity.BodyBuilder answer =
        ResponseEntity.status(kept.status())
            .header("Idempotency-Replayed", "true")
            .cacheControl(CacheControl.noStore().cachePrivate());
    if (!told[0].equals("null")) answer.location(URI.create(told[0]));
    if (!told[1].equals("null")) answer.eTag(told[1]);
    return answer.body(json.readValue(new String(kept.body(), StandardCharsets.UTF_8), type));
  }
}
