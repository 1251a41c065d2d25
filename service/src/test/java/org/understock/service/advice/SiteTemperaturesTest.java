package org.understock.service.advice;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.service.RunningService;
import tools.jackson.databind.json.JsonMapper;

/** Advice from temperatures of the place, on Seattle 2012 to 2015. */
class SiteTemperaturesTest extends RunningService {
  private static final Path SEATTLE =
      Path.of("../shared/src/test/resources/org/understock/climate/seattle-weather.csv");

  /** Days from a date on and before another, every one warmer by so much. */
  private static List<Map<String, Object>> days(String from, String before, double warmerC)
      throws Exception {
    List<Map<String, Object>> days = new ArrayList<>();
    for (String line : Files.readAllLines(SEATTLE)) {
      String[] cells = line.split(",");
      if (cells[0].compareTo(from) < 0 || cells[0].compareTo(before) >= 0) continue;
      days.add(
          Map.of(
              "date",
              cells[0],
              "minC",
              Double.parseDouble(cells[3]) + warmerC,
              "maxC",
              Double.parseDouble(cells[2]) + warmerC));
    }
    return days;
  }

  private static Response advice(Map<String, Object> site, String variety) {
    return given()
        .contentType("application/json")
        .body(
            JsonMapper.shared()
                .writeValueAsString(
                    Map.of(
                        "crop",
                        "apple",
                        "site",
                        site,
                        "candidates",
                        Map.of("varieties", List.of(variety)))))
        .post("/v1/advice");
  }

  private static Map<String, Object> site(List<Map<String, Object>> days) {
    Map<String, Object> site = new HashMap<>();
    site.put("latitude", 47.6);
    site.put("temperatures", Map.of("daily", days));
    return site;
  }

  @Test
  void one_measured_winter_counts_as_its_figures_do() throws Exception {
    List<Map<String, Object>> winter = days("2013-10-01", "2014-04-01", 0);
    JsonPath chill =
        given()
            .contentType("application/json")
            .body(JsonMapper.shared().writeValueAsString(Map.of("latitude", 47.6, "daily", winter)))
            .post("/v1/chill")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    JsonPath measured =
        advice(site(winter), "golden-delicious").then().statusCode(200).extract().jsonPath();
    JsonPath told =
        advice(
                Map.of(
                    "latitude",
                    47.6,
                    "chillPortions",
                    chill.getDouble("winters[0].chillPortions"),
                    "coldestNightC",
                    chill.getDouble("winters[0].coldestNightC")),
                "golden-delicious")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(measured.getList("pairings.stock.id")).isEqualTo(told.getList("pairings.stock.id"));
    for (int k = 0; k < 5; k++) {
      assertThat(measured.getDouble("pairings[" + k + "].score"))
          .isCloseTo(told.getDouble("pairings[" + k + "].score"), within(0.11));
    }
    assertThat(measured.getList("assumed", String.class))
        .doesNotContain("site.chillHours", "site.coldestNightC");
  }

  /**
   * Of measured winters, some that fail a variety lower its chill and do not rule it out; all that
   * fail it do.
   */
  @Test
  void warm_winters_tell_against_a_variety_that_needs_chill() throws Exception {
    JsonPath cool =
        advice(site(days("2012-09-01", "2015-06-01", 0)), "golden-delicious")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(cool.getInt("ruledOutCount")).isZero();
    JsonPath hot =
        advice(site(days("2012-09-01", "2015-06-01", 10)), "golden-delicious")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(hot.getList("pairings")).isEmpty();
    assertThat(hot.getString("ruledOut[0].limits[0].criterion")).isEqualTo("chill");
    assertThat(hot.getString("ruledOut[0].limits[0].text"))
        .contains("3 measured winters brought")
        .contains("chill portions")
        .contains("Golden Delicious needs about 50 chill portions");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"temperatures\":{\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}]}} | #/site/latitude",
        "{\"latitude\":45,\"temperatures\":{\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}]}} | #/site/temperatures",
        "{\"latitude\":45,\"temperatures\":{}} | #/site/temperatures",
        "{\"latitude\":45,\"temperatures\":{\"daily\":[{\"date\":\"2024-01-01\",\"minC\":3,\"maxC\":2}]}} | #/site/temperatures/daily/0/minC",
        "{\"latitude\":45,\"temperatures\":{\"hourly\":{\"start\":\"2024-01-01T00:00\",\"valuesC\":[99]}}} | #/site/temperatures/hourly/valuesC/0"
      })
  void what_cannot_be_meant_is_named(String site, String pointer) {
    JsonPath problem =
        given()
            .contentType("application/json")
            .body("{\"crop\":\"apple\",\"site\":" + site + "}")
            .post("/v1/advice")
            .then()
            .statusCode(422)
            .extract()
            .jsonPath();
    assertThat(problem.getList("errors.pointer", String.class)).contains(pointer);
  }
}
