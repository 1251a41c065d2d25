package org.understock.service.advice;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hamcrest.Matchers.containsString;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.service.RunningService;
import tools.jackson.databind.SerializationFeature;
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

  /** The four years of Seattle over and over, until there are thirty; read as one record. */
  private static List<Map<String, Object>> thirtyYears() throws Exception {
    List<Map<String, Object>> four = days("2012-01-01", "2016-01-01", 0);
    List<Map<String, Object>> days = new ArrayList<>();
    LocalDate first = LocalDate.of(1990, 1, 1);
    for (LocalDate day = first; day.getYear() < 2020; day = day.plusDays(1)) {
      Map<String, Object> one =
          new HashMap<>(four.get((int) ChronoUnit.DAYS.between(first, day) % four.size()));
      one.put("date", day.toString());
      days.add(one);
    }
    return days;
  }

  @Test
  void thirty_years_of_days_may_be_told_however_they_are_laid_out() throws Exception {
    Map<String, Object> question =
        Map.of(
            "crop",
            "apple",
            "site",
            site(thirtyYears()),
            "candidates",
            Map.of("varieties", List.of("golden-delicious")));
    String indented =
        JsonMapper.builder()
            .enable(SerializationFeature.INDENT_OUTPUT)
            .build()
            .writeValueAsString(question)
            .replace("  ", "    ");
    assertThat(indented.length()).isGreaterThan(1 << 20);
    JsonPath answer =
        given()
            .contentType("application/json")
            .body(indented)
            .post("/v1/advice")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(answer.getList("assumed", String.class))
        .doesNotContain("site.chillHours", "site.coldestNightC");
    given()
        .contentType("application/json")
        // little past the limit: what is left of the body is swallowed, so no client is cut off
        .body(indented + " ".repeat((4 << 20) + 1024 - indented.length()))
        .post("/v1/advice")
        .then()
        .statusCode(413)
        .body("detail", containsString("Send fewer years of site.temperatures"));
  }

  /**
   * With bloom told, frost at bloom is a criterion, and the answer says so. At Seattle's airport no
   * night around 20 April came near the -3.9 °C that take nine of ten flowers of apple; nine
   * degrees colder every spring had one.
   */
  @ParameterizedTest
  @CsvSource({"0, 0", "-9, 1"})
  void told_bloom_makes_frost_at_bloom_count(double warmerC, int cautions) throws Exception {
    Map<String, Object> site = site(days("2012-01-01", "2016-01-01", warmerC));
    site.put("bloom", List.of(Map.of("variety", "golden-delicious", "fullBloom", "04-20")));
    JsonPath answer = advice(site, "golden-delicious").then().statusCode(200).extract().jsonPath();
    assertThat(answer.getList("weights.criterion", String.class)).contains("frost-at-bloom");
    assertThat(answer.getList("pairings")).isNotEmpty();
    assertThat(
            answer.getList(
                "pairings[0].cautions.findAll { it.code == 'frost-at-bloom' }.text", String.class))
        .hasSize(cautions)
        .allMatch(
            t ->
                t.startsWith(
                    "Frost would have taken the crop of Golden Delicious in about 4 of 4 springs: "));
  }

  @Test
  void temperatures_without_bloom_say_what_is_missing() throws Exception {
    JsonPath untold =
        advice(site(days("2012-01-01", "2016-01-01", 0)), "golden-delicious")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(untold.getList("weights.criterion", String.class)).doesNotContain("frost-at-bloom");
    assertThat(untold.getList("assumed", String.class)).contains("site.bloom");
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
