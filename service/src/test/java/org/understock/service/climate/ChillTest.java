package org.understock.service.climate;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.StringReader;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import tools.jackson.databind.json.JsonMapper;

/**
 * Winters over HTTP, on Seattle 2012 to 2015 (npm package vega-datasets, see the file beside it).
 */
class ChillTest extends RunningService {
  private static final Path SEATTLE =
      Path.of("../shared/src/test/resources/org/understock/climate/seattle-weather.csv");

  private static String seattle() {
    try {
      return Files.readString(SEATTLE);
    } catch (IOException broken) {
      throw new java.io.UncheckedIOException(broken);
    }
  }

  private static List<Map<String, Object>> days() {
    List<Map<String, Object>> days = new ArrayList<>();
    for (String line : seattle().lines().skip(1).toList()) {
      String[] cells = line.split(",");
      days.add(
          Map.of(
              "date",
              cells[0],
              "minC",
              Double.valueOf(cells[3]),
              "maxC",
              Double.valueOf(cells[2])));
    }
    return days;
  }

  private static Response post(Map<String, Object> body) {
    return given()
        .contentType("application/json")
        .body(JsonMapper.shared().writeValueAsString(body))
        .post("/v1/chill");
  }

  private static Response contracted(Map<String, Object> body) {
    Contract contract = new Contract(given().get("/v3/api-docs").asString());
    return given()
        .filter(contract)
        .contentType("application/json")
        .body(JsonMapper.shared().writeValueAsString(body))
        .post("/v1/chill");
  }

  @Test
  void three_winters_with_the_night_rule_of_the_published_figures() {
    JsonPath answer =
        contracted(Map.of("latitude", 47.6, "daily", days(), "nightRule", "split-at-midnight"))
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(answer.getList("winters.winter", String.class))
        .containsExactly("2011/12", "2012/13", "2013/14", "2014/15", "2015/16");
    assertThat(answer.getList("winters.standing", String.class))
        .containsExactly("partial", "complete", "complete", "complete", "partial");
    assertThat(answer.getDouble("winters[1].chillHours")).isEqualTo(2124);
    assertThat(answer.getDouble("winters[1].utahUnits")).isEqualTo(2904);
    assertThat(answer.getDouble("winters[1].chillPortions")).isCloseTo(125.6528819, within(2.0));
    assertThat(answer.getDouble("winters[1].growingDegreeHours"))
        .isCloseTo(11314.26678, within(1e-3));
    assertThat(answer.getInt("completeWinters")).isEqualTo(3);
    assertThat(answer.getDouble("safeWinterChill.chillHours"))
        .isCloseTo(1325 + 0.2 * (1814 - 1325), within(1e-9));
    assertThat(answer.getString("winterCold.hardinessZone")).isIn("8b", "9a");
  }

  @Test
  void csv_and_json_say_the_same() {
    JsonPath json =
        post(Map.of(
                "latitude",
                47.6,
                "daily",
                days(),
                "varieties",
                List.of("fuji", "currot"),
                "warmingC",
                2))
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    JsonPath csv =
        given()
            .contentType("text/csv")
            .body(seattle())
            .post("/v1/chill?latitude=47.6&varieties=fuji,currot&warmingC=2")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    for (String part :
        List.of("winters", "safeWinterChill", "winterCold", "varieties", "warmed", "sources")) {
      assertThat(csv.<Object>get(part)).as(part).isEqualTo(json.get(part)).isNotNull();
    }
    assertThat(String.join(" ", csv.getList("notes", String.class)))
        .contains("precipitation, wind, weather");
  }

  @Test
  void fahrenheit_is_read_when_said_and_recognised_when_not() {
    List<Map<String, Object>> fahrenheit =
        days().stream()
            .map(
                d ->
                    Map.of(
                        "date",
                        d.get("date"),
                        "minC",
                        (Object) ((Double) d.get("minC") * 1.8 + 32),
                        "maxC",
                        (Double) d.get("maxC") * 1.8 + 32))
            .toList();
    JsonPath said =
        post(Map.of("latitude", 47.6, "daily", fahrenheit, "units", "fahrenheit"))
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    JsonPath celsius = post(Map.of("latitude", 47.6, "daily", days())).jsonPath();
    assertThat(said.getDouble("winters[2].chillPortions"))
        .isCloseTo(celsius.getDouble("winters[2].chillPortions"), within(1e-3));
    JsonPath problem =
        post(Map.of("latitude", 47.6, "daily", fahrenheit))
            .then()
            .statusCode(422)
            .extract()
            .jsonPath();
    assertThat(problem.getString("errors[0].pointer")).isEqualTo("#/daily");
    assertThat(problem.getString("errors[0].detail")).contains("January").contains("fahrenheit");
  }

  /**
   * Constant 6 °C: an hour each of chilling and of Utah, and 24.43256 portions in 30 days (computed
   * from the published equations in R).
   */
  @Test
  void a_logger_at_one_temperature() {
    List<Double> hours = java.util.Collections.nCopies(720, 6.0);
    Map<String, Object> hourly = Map.of("start", "2024-10-01T00:00", "valuesC", hours);
    JsonPath answer =
        post(Map.of(
                "latitude", 44, "hourly", hourly, "season", Map.of("from", "10-01", "to", "10-30")))
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(answer.getString("winters[0].standing")).isEqualTo("complete");
    assertThat(answer.getString("winters[0].winter")).isEqualTo("2024");
    assertThat(answer.getDouble("winters[0].chillHours")).isEqualTo(720);
    assertThat(answer.getDouble("winters[0].utahUnits")).isEqualTo(720);
    assertThat(answer.getDouble("winters[0].chillPortions")).isCloseTo(24.43256, within(1e-4));
    JsonPath quarters =
        post(Map.of(
                "latitude",
                44,
                "hourly",
                Map.of(
                    "start",
                    "2024-10-01T00:00",
                    "stepMinutes",
                    15,
                    "valuesC",
                    java.util.Collections.nCopies(2880, 6.0)),
                "season",
                Map.of("from", "10-01", "to", "10-30")))
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(quarters.<Object>get("winters")).isEqualTo(answer.get("winters"));
  }

  @Test
  void a_loggers_export_with_semicolons_and_decimal_commas() {
    StringBuilder csv = new StringBuilder("Date-Time;Battery;Temperature\r\n");
    for (int k = 0; k < 720; k++)
      csv.append(LocalDate.of(2024, 10, 1).atStartOfDay().plusHours(k).toString().replace('T', ' '))
          .append(";3,1;6,0\r\n");
    JsonPath answer =
        given()
            .contentType("text/csv")
            .body(csv.toString())
            .post("/v1/chill?latitude=44&seasonFrom=10-01&seasonTo=10-30")
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(answer.getDouble("winters[0].chillPortions")).isCloseTo(24.43256, within(1e-4));
  }

  /** Fuji's and Currot's needs are on record; invented bloom days. */
  @Test
  void varieties_bloom_frost_and_warming() {
    JsonPath answer =
        contracted(
                Map.of(
                    "latitude",
                    47.6,
                    "daily",
                    days(),
                    "varieties",
                    List.of("fuji", "golden-delicious"),
                    "stocks",
                    List.of("m-9"),
                    "bloom",
                    List.of(
                        Map.of(
                            "variety",
                            "golden-delicious",
                            "observed",
                            List.of("2013-04-18", "2014-04-14", "2015-03-31"))),
                    "warmingC",
                    2))
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertThat(answer.getDouble("varieties[1].chanceMet")).isBetween(0.9, 1.0);
    assertThat(answer.getList("varieties[1].records")).isNotEmpty();
    assertThat(answer.getString("varieties[1].bloom.basis")).isEqualTo("chill-then-heat");
    assertThat(answer.getList("varieties[1].bloom.frost.stages")).hasSize(3);
    assertThat(answer.getString("varieties[1].bloom.frost.source"))
        .contains("Critical spring temperatures");
    assertThat(answer.getDouble("varieties[1].bloom.frost.meanShareKilled")).isBetween(0.0, 1.0);
    assertThat(answer.getString("varieties[0].bloom.basis")).isEqualTo("other-variety");
    String now = answer.getString("varieties[1].bloom.fullBloom");
    assertThat(answer.getString("warmed.varieties[1].bloom.fullBloom")).isLessThan(now);
    assertThat(answer.getDouble("warmed.safeWinterChill.chillHours"))
        .isLessThan(answer.getDouble("safeWinterChill.chillHours"));
    assertThat(answer.getList("sources")).isNotEmpty();
  }

  @Test
  void the_chart_is_a_picture_that_says_in_words_what_it_shows() throws Exception {
    Response response =
        given()
            .contentType("text/csv")
            .accept("image/svg+xml")
            .body(seattle())
            .post(
                "/v1/chill?latitude=47.6&varieties=golden-delicious,redhaven&chart=chill-portions");
    assertThat(response.statusCode()).isEqualTo(200);
    assertThat(response.contentType()).startsWith("image/svg+xml");
    Document svg =
        DocumentBuilderFactory.newDefaultInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(response.asString())));
    String words = svg.getElementsByTagName("desc").item(0).getTextContent();
    assertThat(words)
        .contains("2012/13 126")
        .contains("Golden Delicious needs about 50")
        .contains("Nine of ten winters exceed");
    assertThat(svg.getElementsByTagName("polyline").getLength()).isEqualTo(6);
    Path picture = Path.of("target/chill.svg");
    Files.writeString(picture, response.asString());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"latitude\":50} | 422 | #/daily",
        "{\"latitude\":50,\"daily\":[]} | 422 | #/daily",
        "{\"latitude\":50,\"daily\":[null]} | 422 | #/daily/0",
        "{\"latitude\":50,\"daily\":[{\"date\":\"yesterday\",\"minC\":1,\"maxC\":2}]} | 422 | #/daily/0/date",
        "{\"latitude\":50,\"daily\":[{\"minC\":1,\"maxC\":2}]} | 422 | #/daily/0/date",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":\"x\",\"maxC\":2}]} | 400 | #/daily/0/minC",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":3,\"maxC\":2}]} | 422 | #/daily/0/minC",
        "{\"latitude\":50,\"daily\":[{\"date\":\"1024-01-01\",\"minC\":1,\"maxC\":2},{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}]} | 422 | #/daily/1/date",
        "{\"latitude\":71,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}]} | 422 | #/latitude",
        "{\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}]} | 422 | #/latitude",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}],\"varieties\":[\"fujji\"]} | 422 | #/varieties/0",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}],\"season\":{\"from\":\"13-01\",\"to\":\"03-31\"}} | 422 |"
            + " #/season/from",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}],\"season\":{\"from\":\"03-01\",\"to\":\"03-10\"}} | 422 |"
            + " #/season/to",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}],\"stocks\":[\"m-9\"]} | 422 | #/crop",
        "{\"latitude\":50,\"daily\":[{\"date\":\"2024-01-01\",\"minC\":1,\"maxC\":2}],\"revision\":99} | 422 | #/revision",
        "{\"latitude\":50,\"lattitude\":50} | 400 | #/lattitude",
        "{\"latitude\":50,\"hourly\":{\"start\":\"2024-10-01\",\"valuesC\":[1]}} | 422 | #/hourly/start",
        "{\"latitude\":50,\"hourly\":{\"start\":\"2024-10-01T00:00\",\"valuesC\":[1,400]}} | 422 | #/hourly/valuesC/1",
        "{\"latitude\":50,\"hourly\":{\"start\":\"2024-10-01T00:00\",\"valuesC\":[null]}} | 422 | #/hourly/valuesC",
        "{\"latitude\":50,\"hourly\":{\"start\":\"2024-10-01T00:00\",\"stepMinutes\":600,\"valuesC\":[1]}} | 422 | #/hourly/stepMinutes",
        "{\"latitude\":50,\"hourly\":{\"start\":\"2024-10-01T00:00\",\"valuesC\":[1]},\"bloom\":[{\"variety\":\"fuji\"}]} | 422 | #/bloom/0",
        "{\"latitude\":50,\"hourly\":{\"start\":\"2024-10-01T00:00\",\"valuesC\":[1]},\"bloom\":[{\"variety\":\"fuji\",\"fullBloom\":\"02-31\"}]} | 422"
            + " | #/bloom/0/fullBloom",
        "{\"latitude\":50,\"hourly\":{\"start\":\"+999999999-10-01T00:00\",\"valuesC\":[1,2]}} | 422 | #/hourly/start",
      })
  void what_cannot_be_meant_is_named(String body, int status, String pointer) {
    JsonPath problem =
        given()
            .contentType("application/json")
            .body(body)
            .post("/v1/chill")
            .then()
            .statusCode(status)
            .contentType("application/problem+json")
            .extract()
            .jsonPath();
    assertThat(problem.getList("errors.pointer", String.class)).contains(pointer);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "latitude=50 | date,min | header",
        "latitude=50 | date,min,max;2024-01-01,3,2 | line 2, min",
        "latitude=50 | date,min,max;2024-01-01,1,2;2024-01-01,1,2 | line 3, date",
        "latitude=50 | date,min,max;2024-01-01,x,2 | line 2, min",
        "latitude=50 | date,min,max;2024-01-01,1,99 | line 2, max",
        "latitude=50 | date-time,temperature;2024-01-01T01:00,1;2024-01-01T00:00,1 | line 3, date-time",
        "latitude=50 | date,min,max | no day",
      })
  void what_cannot_be_meant_in_a_file_is_named_by_line_and_column(
      String query, String lines, String told) {
    JsonPath problem =
        given()
            .contentType("text/csv")
            .body(lines.replace(';', '\n'))
            .post("/v1/chill?" + query)
            .then()
            .statusCode(422)
            .extract()
            .jsonPath();
    assertThat(problem.getString("errors[0].detail")).contains(told);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "varieties=fuji | latitude",
        "latitude=99 | latitude",
        "latitude=x | latitude",
        "latitude=50&seasonFrom=10-01 | seasonTo",
        "latitude=50&units=kelvin | units",
        "latitude=50&varieties=fujji | varieties",
        "latitude=50&bloom=fuji | bloom",
        "latitude=50&chart=heat | chart",
        "latitude=50&longitude=3 | longitude",
        "latitude=50&revision=99 | revision"
      })
  void parameters_that_cannot_be_used_are_named(String query, String parameter) {
    JsonPath problem =
        given()
            .contentType("text/csv")
            .body("date,min,max\n2024-01-01,1,2\n")
            .post("/v1/chill?" + query)
            .then()
            .extract()
            .jsonPath();
    assertThat(problem.getInt("status")).isIn(400, 422);
    assertThat(problem.getList("errors.parameter", String.class))
        .as(problem.prettify())
        .contains(parameter);
  }

  /** The head of the answer to a body that is announced and not sent. */
  private String declared(int bytes) throws IOException {
    try (Socket socket = new Socket("localhost", port())) {
      socket
          .getOutputStream()
          .write(
              ("POST /v1/chill?latitude=50 HTTP/1.1\r\nHost: localhost\r\nContent-Type: text/csv\r\nContent-Length: "
                      + bytes
                      + "\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      StringBuilder head = new StringBuilder();
      BufferedReader lines =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
      for (String line = lines.readLine(); line != null && !line.isEmpty(); line = lines.readLine())
        head.append(line).append('\n');
      return head.toString();
    }
  }

  /**
   * A logger's export without end, in chunks: the service answers and hangs up at the limit, and
   * doesn't go on reading.
   */
  @Test
  void a_file_without_end_is_refused_where_the_limit_is() throws IOException {
    long sent = 0;
    StringBuilder answer = new StringBuilder();
    try (Socket socket = new Socket("localhost", port())) {
      socket.setSoTimeout(60_000);
      OutputStream out = socket.getOutputStream();
      out.write(
          "POST /v1/chill?latitude=50 HTTP/1.1\r\nHost: localhost\r\nContent-Type: text/csv\r\nTransfer-Encoding: chunked\r\n\r\n"
              .getBytes(StandardCharsets.US_ASCII));
      LocalDateTime time = LocalDateTime.of(1830, 1, 1, 0, 0);
      StringBuilder rows = new StringBuilder("date-time,temperature\n");
      try {
        while (sent < 100 << 20 && socket.getInputStream().available() == 0) {
          for (int k = 0; k < 3000; k++, time = time.plusMinutes(15))
            rows.append(time).append(",5.125\n");
          byte[] chunk = rows.toString().getBytes(StandardCharsets.US_ASCII);
          rows.setLength(0);
          out.write(
              (Integer.toHexString(chunk.length) + "\r\n").getBytes(StandardCharsets.US_ASCII));
          out.write(chunk);
          out.write("\r\n".getBytes(StandardCharsets.US_ASCII));
          sent += chunk.length;
        }
      } catch (SocketException hungUp) {
        // by the service, which has answered before
      }
      try {
        InputStream in = socket.getInputStream();
        for (int b = in.read(); b >= 0; b = in.read()) answer.append((char) b);
      } catch (SocketException hungUp) {
        // after the answer
      }
    }
    assertThat(answer.toString())
        .startsWith("HTTP/1.1 413")
        .contains("The body is longer than 16777216 bytes. Send fewer years a request");
    // what the sockets hold besides: a megabyte that the service swallows, and the system's buffers
    assertThat(sent).isBetween(16L << 20, 40L << 20);
  }

  /** More lines than any series has days: they are told at the line, and not kept. */
  @Test
  void a_file_of_more_than_two_hundred_years_of_days_is_refused_at_its_line() {
    StringBuilder file = new StringBuilder("date,min,max\n");
    LocalDate first = LocalDate.of(1800, 1, 1);
    for (int k = 0; k < 80_000; k++) file.append(first.plusDays(k)).append(",1.5,9\n");
    JsonPath problem =
        given()
            .contentType("text/csv")
            .body(file.toString())
            .post("/v1/chill?latitude=50")
            .then()
            .statusCode(422)
            .extract()
            .jsonPath();
    // to 1 January 2000 there are 73 049 days, and the header is the first line
    assertThat(problem.getString("errors[0].detail"))
        .startsWith("line 73051, date: 2000-01-02 is too far from the first day, 1800-01-01");
  }

  @Test
  void a_file_with_all_days_off_the_scale_in_its_unit_is_told_once_and_few_by_line() {
    StringBuilder fahrenheit = new StringBuilder("date,min,max\n");
    LocalDate first = LocalDate.of(2020, 1, 1);
    for (int k = 0; k < 366; k++) fahrenheit.append(first.plusDays(k)).append(",62,81\n");
    JsonPath unit =
        given()
            .contentType("text/csv")
            .body(fahrenheit.toString())
            .post("/v1/chill?latitude=45")
            .then()
            .statusCode(422)
            .extract()
            .jsonPath();
    assertThat(unit.getList("errors")).hasSize(1);
    assertThat(unit.getString("errors[0].detail")).contains("say units fahrenheit");
    JsonPath some =
        given()
            .contentType("text/csv")
            .body("date,min,max\n2020-01-01,1,99\n2020-01-02,NaN,3\n2020-01-03,5,4\n")
            .post("/v1/chill?latitude=45")
            .then()
            .statusCode(422)
            .extract()
            .jsonPath();
    assertThat(some.getList("errors.detail", String.class))
        .hasSize(3)
        .anyMatch(d -> d.startsWith("line 2, max: "))
        .anyMatch(d -> d.startsWith("line 3, min: must be a number, not 'NaN'"))
        .anyMatch(d -> d.startsWith("line 4, min: the minimum of 2020-01-03"));
  }

  @Test
  void parameters_of_files_do_not_go_with_json_and_a_body_has_a_limit() throws IOException {
    given()
        .contentType("application/json")
        .body("{\"latitude\":50,\"daily\":[]}")
        .post("/v1/chill?latitude=50")
        .then()
        .statusCode(400);
    assertThat(declared(17 << 20)).startsWith("HTTP/1.1 413").contains("application/problem+json");
    // Twenty-three years of hours are longer than other operations take, and good here.
    List<Double> hours = java.util.Collections.nCopies(200_000, 5.123);
    post(Map.of("latitude", 44, "hourly", Map.of("start", "2000-10-01T00:00", "valuesC", hours)))
        .then()
        .statusCode(200);
    given().contentType("text/plain").body("{}").post("/v1/chill").then().statusCode(415);
    given()
        .contentType("application/json")
        .accept("text/html")
        .body("{}")
        .post("/v1/chill")
        .then()
        .statusCode(406);
  }
}
