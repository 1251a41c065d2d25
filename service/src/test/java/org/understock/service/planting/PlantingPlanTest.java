package org.understock.service.planting;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import io.restassured.response.ValidatableResponse;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** Planting plans as a grower's program meets them. */
class PlantingPlanTest extends RunningService {
  private static final String TREES =
      "\"trees\":[{\"stock\":\"m-9\",\"variety\":\"fuji\",\"share\":1},{\"stock\":\"m-9\",\"variety\":\"gala\"}]";
  private static final String ENGLISH =
      "(?i)\\b(the|of|and|is|are|not|with|for|from|its|on|tree|trees|row|rows|year|spare)\\b";
  private static final String FIVE_HECTARES =
      "{\"plot\":{\"widthM\":200,\"lengthM\":250},\"layout\":{\"form\":\"hedgerow\",\"access\":\"tractor\"},"
          + TREES
          + "}";

  @Test
  void positions_counts_and_order_agree() {
    var plan =
        post("{\"plot\":{\"widthM\":30,\"lengthM\":40,\"headlandM\":3},\"layout\":{\"rowDirectionDeg\":0},"
                + TREES
                + ",\"goal\":{\"keepForYears\":15}}")
            .statusCode(200)
            .extract()
            .jsonPath();
    List<Map<String, Object>> trees = plan.getList("trees");
    assertThat(plan.getInt("treeCount")).isEqualTo(trees.size());
    for (Map<String, Object> order : plan.<Map<String, Object>>getList("order")) {
      assertThat(trees.stream().filter(t -> t.get("variety").equals(order.get("variety"))))
          .hasSize((Integer) order.get("count"));
    }
    assertThat(trees)
        .allSatisfy(t -> assertThat(((Number) t.get("yM")).doubleValue()).isBetween(2.99, 37.01));
    assertThat(trees.get(0)).containsEntry("row", 1).containsEntry("position", 1);
    assertThat(plan.getList("yearlyYieldKg")).hasSize(15);
    assertThat(plan.getList("cautions.code"))
        .contains("buried-services", "boundary-rules", "partner-number");
  }

  @Test
  void the_same_plan_is_drawn_once_for_every_tree() throws Exception {
    String svg = svg("{\"plot\":{\"widthM\":12,\"lengthM\":16}," + TREES + "}");
    Document picture = parsed(svg);
    int count =
        post("{\"plot\":{\"widthM\":12,\"lengthM\":16}," + TREES + "}")
            .statusCode(200)
            .extract()
            .jsonPath()
            .getInt("treeCount");
    assertThat(picture.getElementsByTagName("title").item(0).getTextContent())
        .contains(count + " trees");
    assertThat(picture.getElementsByTagName("desc").item(0).getTextContent())
        .contains("Fuji on M.9")
        .contains("as pollen partners");
    assertThat(svg)
        .contains(">N</text>")
        .contains(" m</text>")
        .contains("pollen partner</text>")
        .contains(">1</text>");
    int marks = 0;
    for (int k = 0; k < picture.getElementsByTagName("g").getLength(); k++) {
      Element group = (Element) picture.getElementsByTagName("g").item(k);
      if (!group.getTextContent().contains(" on ")) continue;
      Element last =
          (Element)
              group
                  .getElementsByTagName("path")
                  .item(group.getElementsByTagName("path").getLength() - 1);
      marks += last.getAttribute("d").split("M").length - 1;
    }
    assertThat(marks).isEqualTo(count);
    assertThat(svg("{\"plot\":{\"widthM\":12,\"lengthM\":16}," + TREES + "}")).isEqualTo(svg);
  }

  @Test
  void the_sheets_say_of_every_row_what_goes_where() {
    String body = "{\"plot\":{\"widthM\":20,\"lengthM\":40}," + TREES + "}";
    var plan = post(body).statusCode(200).extract().jsonPath();
    String sheets =
        given()
            .contentType("application/json")
            .accept("text/html")
            .body(body)
            .post("/v1/planting-plans")
            .then()
            .statusCode(200)
            .contentType("text/html;charset=UTF-8")
            .extract()
            .asString();
    assertThat(sheets)
        .contains("<svg")
        .doesNotContain("<script")
        .contains("revision " + plan.getLong("revision"));
    int planted = 0;
    var counts = java.util.regex.Pattern.compile("(\\d+) × ").matcher(sheets);
    while (counts.find()) planted += Integer.parseInt(counts.group(1));
    assertThat(planted).isEqualTo(plan.getInt("treeCount"));
    for (String caution : plan.<String>getList("cautions.text"))
      assertThat(org.springframework.web.util.HtmlUtils.htmlUnescape(sheets)).contains(caution);
  }

  /**
   * Texts and labels in the reader's language and units; positions and counts stay SI and alike.
   */
  @Test
  void a_plan_is_told_and_drawn_in_the_readers_language_and_units() {
    String body = "{\"plot\":{\"widthM\":20,\"lengthM\":40}," + TREES;
    var english = post(body + "}").statusCode(200).extract();
    for (String form : List.of("application/json", "image/svg+xml", "text/html")) {
      var spanish =
          given()
              .contentType("application/json")
              .header("Accept", form)
              .header("Accept-Language", "es")
              .body(body + ",\"units\":\"us-customary\"}")
              .post("/v1/planting-plans");
      assertThat(spanish.statusCode()).isEqualTo(200);
      assertThat(spanish.header("Content-Language")).isEqualTo("es");
      if (form.equals("application/json")) {
        assertThat(spanish.jsonPath().getList("trees"))
            .isEqualTo(english.jsonPath().getList("trees"));
        assertThat(spanish.jsonPath().getList("cautions.code"))
            .isEqualTo(english.jsonPath().getList("cautions.code"));
        assertThat(String.join(" ", spanish.jsonPath().getList("cautions.text", String.class)))
            .doesNotContainPattern(ENGLISH)
            .contains(" pies");
      } else {
        assertThat(spanish.asString().replaceAll("(?s)<style>.*?</style>|<[^>]*>", " "))
            .as(form)
            .doesNotContainPattern(ENGLISH)
            .contains(" pies");
      }
    }
  }

  @Test
  void ten_thousand_trees_make_a_picture_below_two_megabytes() throws Exception {
    String svg = svg(FIVE_HECTARES);
    System.out.println(
        "picture of 5 ha: "
            + svg.length()
            + " bytes, "
            + parsed(svg).getElementsByTagName("title").item(0).getTextContent());
    assertThat(svg.getBytes(StandardCharsets.UTF_8)).hasSizeLessThan(2_000_000);
  }

  @Test
  void what_cannot_be_planted_is_refused_where_it_stands() {
    refused(
        "{\"plot\":{\"widthM\":1,\"lengthM\":1}," + TREES + "}", 422, "#/plot", "no tree has room");
    refused("{\"plot\":{\"widthM\":10}," + TREES + "}", 422, "#/plot", "plot.lengthM");
    refused(
        "{\"plot\":{\"widthM\":10,\"lengthM\":10,\"outline\":[{\"xM\":0,\"yM\":0},{\"xM\":1,\"yM\":0},{\"xM\":0,\"yM\":1}]},"
            + TREES
            + "}",
        422,
        "#/plot",
        "not both");
    refused(
        "{\"plot\":{\"outline\":[{\"xM\":0,\"yM\":0},{\"xM\":10,\"yM\":10},{\"xM\":10,\"yM\":0},{\"xM\":0,\"yM\":10}]},"
            + TREES
            + "}",
        422,
        "#/plot/outline",
        "crosses or touches itself");
    refused(
        "{\"plot\":{\"widthM\":20,\"lengthM\":20},\"trees\":[{\"stock\":\"m-9\",\"variety\":\"fuji\",\"share\":0.5}]}",
        422,
        "#/trees",
        "add up to 50 %");
    refused(
        "{\"plot\":{\"widthM\":20,\"lengthM\":20},\"trees\":[{\"stock\":\"m-9\",\"variety\":\"fujj\"}]}",
        422,
        "#/trees/0/variety",
        "fuji");
    refused(
        "{\"plot\":{\"widthM\":20,\"lengthM\":20},\"trees\":[{\"stock\":\"m-9\",\"variety\":\"fuji\",\"share\":7}]}",
        422,
        "#/trees/0/share",
        "1");
    refused("{\"plot\":{\"widthM\":20,\"lengthM\":20},\"trees\":[]}", 422, "#/trees", "");
    refused(
        "{\"plot\":{\"widthM\":20,\"lengthM\":20},\"layout\":{\"form\":\"heap\"}," + TREES + "}",
        422,
        "#/layout/form",
        "hedgerow");
    refused(
        "{\"plot\":{\"widthM\":20,\"lenghtM\":20}," + TREES + "}",
        400,
        "#/plot/lenghtM",
        "lengthM");
    refused("{\"plot\":{\"outline\":[null,null,null]}," + TREES + "}", 422, "#/plot/outline/0", "");
    refused(
        "{\"plot\":{\"widthM\":20,\"lengthM\":20},\"need\":{\"kgPerYear\":100,\"fromYear\":1},"
            + TREES
            + "}",
        422,
        "#/need/fromYear",
        "bear nothing yet");
    refused(
        "{\"plot\":{\"widthM\":20,\"lengthM\":20},\"trees\":[{\"stock\":\"marianna-2624\",\"variety\":\"bulida\"}]}",
        422,
        "#/trees/0/stock",
        "interstem");
  }

  private static void refused(String body, int status, String pointer, String says) {
    post(body)
        .statusCode(status)
        .contentType("application/problem+json")
        .body("errors.pointer", hasItem(equalTo(pointer)))
        .body("errors.find { it.pointer == '" + pointer + "' }.toString()", containsString(says));
  }

  private static ValidatableResponse post(String body) {
    return given().contentType("application/json").body(body).post("/v1/planting-plans").then();
  }

  private static String svg(String body) {
    return given()
        .contentType("application/json")
        .accept("image/svg+xml")
        .body(body)
        .post("/v1/planting-plans")
        .then()
        .statusCode(200)
        .contentType("image/svg+xml")
        .extract()
        .asString();
  }

  private static Document parsed(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
  }
}
