package org.understock.service.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;

/** Answers in the asker's language, and the headers that say so. */
class SpokenTest extends RunningService {
  private static final String ADVICE =
      "{\"crop\":\"apple\",\"candidates\":{\"stocks\":[\"m-7\"],\"varieties\":[\"gala\"]}}";

  private static RequestSpecification asking(String languages) {
    return given().header("Accept-Language", languages).contentType("application/json");
  }

  private static void told(Response answer, String language) {
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.header("Content-Language")).isEqualTo(language);
    assertThat(String.join(",", answer.headers().getValues("Vary")))
        .containsIgnoringCase("accept-language");
  }

  @Test
  void advice_and_pollination_come_in_the_language_that_is_preferred() {
    told(given().contentType("application/json").body(ADVICE).post("/v1/advice"), "en");
    told(asking("de-AT, de;q=0.9").body(ADVICE).post("/v1/advice"), "en");
    Response spanish = asking("fr, es-ES;q=0.7, en;q=0.5").body(ADVICE).post("/v1/advice");
    told(spanish, "es");
    assertThat(spanish.<String>path("reach.text")).startsWith("La combinación consultada");
    told(asking("es-MX").body(ADVICE).post("/v1/advice"), "es-419");
    told(asking("es").body("{\"varieties\":[\"gala\",\"fuji\"]}").post("/v1/pollination"), "es");
  }

  @Test
  void kept_answers_differ_by_language() {
    for (String path :
        new String[] {"/v1/criteria", "/v1/purposes", "/v1/varieties/fuji/partners"}) {
      Response english = asking("en").get(path);
      Response spanish = asking("es").get(path);
      told(english, "en");
      told(spanish, "es");
      assertThat(english.asString()).isNotEqualTo(spanish.asString());
      assertThat(english.header("ETag")).isNotEqualTo(spanish.header("ETag"));
      assertThat(
              asking("es").header("If-None-Match", english.header("ETag")).get(path).statusCode())
          .isEqualTo(200);
      assertThat(
              asking("es").header("If-None-Match", spanish.header("ETag")).get(path).statusCode())
          .isEqualTo(304);
    }
  }

  @Test
  void problems_are_in_english() {
    Response refused = asking("es").body("{\"crop\":\"appel\"}").post("/v1/advice");
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.header("Content-Language")).isNull();
  }
}
