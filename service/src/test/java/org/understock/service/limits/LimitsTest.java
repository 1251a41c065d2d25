package org.understock.service.limits;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/**
 * Small allowances, behind a proxy that is trusted. Every test asks from addresses of its own
 * (documentation's, RFC 5737 and RFC 3849).
 */
@TestPropertySource(
    properties = {
      "understock.limits.per-minute=60",
      "understock.limits.burst=30",
      "understock.limits.working=1",
      "understock.limits.patience=0s",
      "server.forward-headers-strategy=native"
    })
class LimitsTest extends RunningService {
  private static final int BURST = 30;
  private static final int CHILL_YEARS = 100;
  private static final Pattern LEFT = Pattern.compile("\"client\";r=(\\d+);t=(\\d+)");
  private static final String STOREFRONT =
      "{\"crop\":\"apple\",\"candidates\":{\"stocks\":[\"m-9\",\"m-7\"],\"varieties\":[\"gala\"]}}";

  @Autowired private Turns turns;

  private static RequestSpecification from(String address) {
    return given().header("X-Forwarded-For", address);
  }

  private static long left(Response response) {
    Matcher told = LEFT.matcher(response.getHeader("RateLimit"));
    assertThat(told.matches()).as(response.getHeader("RateLimit")).isTrue();
    return Long.parseLong(told.group(1));
  }

  private static Response use(String address, int requests) {
    Response last = null;
    for (int i = 0; i < requests; i++) last = from(address).get("/v1/crops");
    return last;
  }

  @Test
  void who_has_used_up_the_allowance_is_told_when_to_come_again_and_may_then() throws Exception {
    Response first = use("192.0.2.1", 1);
    assertThat(first.getStatusCode()).isEqualTo(200);
    assertThat(first.getHeader("RateLimit-Policy")).isEqualTo("\"client\";q=30;w=30");
    assertThat(left(first)).isEqualTo(BURST - 1);
    // One unit comes back each second while these are asked.
    Response refused = use("192.0.2.1", 1);
    for (int i = 0; i < 3 * BURST && refused.getStatusCode() == 200; i++)
      refused = use("192.0.2.1", 1);
    assertThat(refused.getStatusCode()).isEqualTo(429);
    assertThat(refused.getContentType()).startsWith("application/problem+json");
    assertThat(refused.jsonPath().getString("type")).isEqualTo("/problems/too-many-requests");
    assertThat(left(refused)).isZero();
    int wait = Integer.parseInt(refused.getHeader("Retry-After"));
    assertThat(wait).isBetween(1, 2);
    Thread.sleep(wait * 1_000L);
    assertThat(use("192.0.2.1", 1).getStatusCode()).isEqualTo(200);
    given().get(refused.jsonPath().getString("type")).then().statusCode(200);
  }

  @Test
  void each_client_has_an_allowance_of_its_own_and_cannot_make_up_another() {
    use("192.0.2.2", 20);
    assertThat(left(use("192.0.2.3", 1))).isEqualTo(BURST - 1);
    // What stands left of the address that the trusted proxy saw, anybody can write.
    assertThat(left(use("198.51.100.77, 192.0.2.2", 1))).isLessThan(15);
  }

  @Test
  void a_network_of_ipv6_is_one_client() {
    use("2001:db8:1:2::7", 20);
    assertThat(left(use("2001:db8:1:2:aaaa::1", 1))).isLessThan(15);
    assertThat(left(use("2001:db8:1:3::7", 1))).isEqualTo(BURST - 1);
  }

  @Test
  void the_whole_catalogue_counts_more_than_a_storefronts_list() {
    Response little = advise("192.0.2.4", STOREFRONT);
    assertThat(little.getStatusCode()).isEqualTo(200);
    assertThat(left(use("192.0.2.4", 1))).isGreaterThanOrEqualTo(BURST - 2);
    Response much = advise("192.0.2.5", "{\"crop\":\"apple\",\"limit\":1}");
    int judged = much.jsonPath().getInt("considered");
    assertThat(judged).isGreaterThan(5_000);
    assertThat(left(use("192.0.2.5", 1))).isLessThanOrEqualTo(BURST - judged / 500);
  }

  /** Twice some 3 000 trees, chosen out of the whole catalogue: far more than the allowance. */
  @Test
  void a_comparison_counts_its_trees_and_what_was_judged_to_choose_them() {
    Response compared = compare("192.0.2.9", 200);
    assertThat(compared.getStatusCode()).as(compared.asString()).isEqualTo(200);
    assertThat(use("192.0.2.9", 1).getStatusCode()).isEqualTo(429);
  }

  @Test
  void chill_counts_the_years_that_are_worked_through_and_those_of_a_warmer_climate_again() {
    Response asMeasured = chill("192.0.2.10", "");
    assertThat(asMeasured.getStatusCode()).as(asMeasured.asString()).isEqualTo(200);
    int debtS = untilNext("192.0.2.10");
    assertThat(chill("192.0.2.11", "&warmingC=1").getStatusCode()).isEqualTo(200);
    assertThat(untilNext("192.0.2.11")).isGreaterThan(debtS + CHILL_YEARS / 2);
  }

  /** The service has one turn here, and nobody waits for it. */
  @Test
  void winters_comparisons_and_advice_are_worked_at_in_turns() {
    for (int time = 1; time <= 2; time++) { // what is asked again is kept
      assertThat(advise("192.0.2.15", asked(-20)).getStatusCode()).isEqualTo(200);
    }
    turns.take(
        () -> {
          assertThat(chill("192.0.2.12", "").getStatusCode()).isEqualTo(503);
          assertThat(compare("192.0.2.13", 20).getStatusCode()).isEqualTo(503);
          assertThat(advise("192.0.2.14", asked(-21)).getStatusCode()).isEqualTo(503);
          assertThat(advise("192.0.2.15", asked(-20)).getStatusCode())
              .as("a kept answer is not worked at")
              .isEqualTo(200);
          return null;
        });
    assertThat(compare("192.0.2.13", 20).getStatusCode()).isEqualTo(200);
  }

  private static Response compare(String address, int sideM) {
    return from(address)
        .contentType("application/json")
        .body(
            "{\"crop\":\"apple\",\"most\":2,\"plot\":{\"widthM\":%d,\"lengthM\":%d},\"goal\":{\"purpose\":\"market-orchard\"}}"
                .formatted(sideM, sideM))
        .post("/v1/planting-comparisons");
  }

  private static Response chill(String address, String more) {
    StringBuilder days = new StringBuilder("date,min,max\n");
    for (LocalDate day = LocalDate.of(2020 - CHILL_YEARS, 1, 1);
        day.getYear() < 2020;
        day = day.plusDays(1)) days.append(day).append(",2,11\n");
    return from(address)
        .contentType("text/csv")
        .body(days.toString())
        .post("/v1/chill?latitude=44" + more);
  }

  /** Seconds until one who is in debt may ask again, at one unit a second. */
  private static int untilNext(String address) {
    Response refused = use(address, 1);
    assertThat(refused.getStatusCode()).isEqualTo(429);
    return Integer.parseInt(refused.getHeader("Retry-After"));
  }

  /** A question that no other test asks. */
  private static String asked(int coldestNightC) {
    return STOREFRONT.replaceFirst("\\{", "{\"site\":{\"coldestNightC\":" + coldestNightC + "},");
  }

  private static Response advise(String address, String body) {
    return from(address).contentType("application/json").body(body).post("/v1/advice");
  }

  /** Forty lines on an allowance of thirty: all are answered, and nothing is left afterwards. */
  @Test
  void a_batch_waits_instead_of_being_sent_away() {
    byte[] lines = (STOREFRONT + "\n").repeat(BURST + 10).getBytes(StandardCharsets.UTF_8);
    Response answers =
        from("192.0.2.6")
            .config(
                io.restassured.RestAssured.config()
                    .encoderConfig(
                        io.restassured.config.EncoderConfig.encoderConfig()
                            .encodeContentTypeAs(
                                "application/x-ndjson", io.restassured.http.ContentType.BINARY)))
            .contentType("application/x-ndjson")
            .body(lines)
            .post("/v1/advice/batch");
    assertThat(answers.getStatusCode()).isEqualTo(200);
    assertThat(answers.asString().lines()).hasSize(BURST + 10).allMatch(l -> l.contains("advice"));
    assertThat(left(use("192.0.2.6", 1))).isLessThanOrEqualTo(2);
  }

  @Test
  void curation_is_counted_before_tokens_are_looked_at_and_health_is_never() {
    Response guess =
        from("192.0.2.7").header("Authorization", "Bearer guess").get("/v1/curation/records");
    assertThat(guess.getStatusCode()).isEqualTo(401);
    assertThat(left(guess)).isEqualTo(BURST - 1);
    for (int i = 0; i < 2 * BURST; i++) {
      Response healthy = from("192.0.2.8").get("/actuator/health/liveness");
      assertThat(healthy.getStatusCode()).isEqualTo(200);
      assertThat(healthy.getHeader("RateLimit")).isNull();
    }
  }
}
