package org.understock.service.planting;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
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

/** Money and comparisons as a grower's program meets them. Prices are invented. */
class PlantingMoneyTest extends RunningService {
  private static final String PLAN = "/v1/planting-plans";
  private static final String COMPARE = "/v1/planting-comparisons";
  private static final String PLOT = "\"plot\":{\"widthM\":30,\"lengthM\":40}";
  private static final String TREES = "\"trees\":[{\"stock\":\"m-9\",\"variety\":\"fuji\"}]";
  private static final String PAIRINGS =
      "\"pairings\":[{\"stock\":\"m-9\",\"variety\":\"fuji\"},{\"stock\":\"mm-111\",\"variety\":\"fuji\"}]";
  private static final String MONEY =
      "\"money\":{\"currency\":\"crowns\",\"horizonYears\":30,\"discountPercent\":4,\"price\":{\"perKg\":1},"
          + "\"costs\":{\"treeEach\":9,\"harvestPerKg\":0.2}}";

  @Test
  void the_account_adds_up() {
    var plan = post(PLAN, "{" + PLOT + "," + TREES + "," + MONEY + "}").extract().jsonPath();
    int bought = plan.getInt("order[0].count") + plan.getInt("order[0].spare");
    assertThat(plan.getDouble("money.outlay")).isCloseTo(9.0 * bought, within(1.0));
    assertThat(plan.getList("money.yearly")).hasSize(31);
    assertThat(plan.getDouble("money.yearly[0].cash.likely")).isCloseTo(-9.0 * bought, within(1.0));
    assertThat(plan.getString("money.notice")).contains("no financial advice").contains("taxes");
    assertThat(plan.<String>getList("money.uncounted.field"))
        .contains("money.costs.plantingPerTree", "money.costs.yearlyPerHa")
        .doesNotContain("money.costs.treeEach");
    assertThat(plan.<String>getList("money.assumed.field")).contains("money.price.saleablePercent");
    assertThat(post(PLAN, "{" + PLOT + "," + TREES + "}").extract().jsonPath().getMap("money"))
        .isNull();
  }

  @Test
  void a_need_is_told_in_boxes_and_the_plan_says_how_many_it_serves() {
    String need =
        ",\"need\":{\"boxes\":{\"count\":50,\"kgEach\":2,\"timesPerYear\":3},\"fromYear\":8}}";
    var answer = post(PLAN, "{" + PLOT + "," + TREES + need).extract().jsonPath();
    assertThat(answer.getDouble("need.kgPerYear")).isEqualTo(300);
    double bears = answer.getDouble("yearlyYieldKg[7].likely");
    assertThat(answer.getDouble("need.planBearsKg.likely")).isEqualTo(bears);
    assertThat(answer.getDouble("need.planServes.likely"))
        .isCloseTo(Math.floor(bears / 6), within(1.0));
    assertThat(answer.getBoolean("need.planHolds")).isEqualTo(bears >= 300);
  }

  @Test
  void comparisons_are_ranked_and_their_chances_add_up() {
    var both = post(COMPARE, "{" + PLOT + "," + PAIRINGS + "," + MONEY + "}").extract().jsonPath();
    assertThat(both.getString("rankedBy")).isEqualTo("annuity");
    List<Map<String, Object>> plantings = both.getList("plantings");
    assertThat(plantings).hasSize(2);
    assertThat(
            both.getDouble("plantings[0].chanceBest") + both.getDouble("plantings[1].chanceBest"))
        .isCloseTo(1, within(0.002));
    assertThat(both.getDouble("plantings[0].money.annuity.likely"))
        .isGreaterThanOrEqualTo(both.getDouble("plantings[1].money.annuity.likely"));
    assertThat(both.getList("partings")).hasSize(1);
    assertThat(both.getString("text")).contains("crowns").contains("end of year 30");
  }

  @Test
  void comparisons_are_drawn_with_a_name_at_every_line() throws Exception {
    for (String money : new String[] {"", "," + MONEY}) {
      String svg =
          given()
              .contentType("application/json")
              .accept("image/svg+xml")
              .body("{" + PLOT + "," + PAIRINGS + money + "}")
              .post(COMPARE)
              .then()
              .statusCode(200)
              .contentType("image/svg+xml")
              .extract()
              .asString();
      Document picture =
          DocumentBuilderFactory.newInstance()
              .newDocumentBuilder()
              .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
      assertThat(picture.getElementsByTagName("title").item(0).getTextContent())
          .isEqualTo(
              money.isEmpty() ? "Fruit to the end of each year" : "Money to the end of each year");
      assertThat(svg)
          .contains(">Fuji on M.9</text>")
          .contains(">Fuji on MM.111</text>")
          .doesNotContain("NaN");
    }
  }

  @Test
  void what_cannot_be_reckoned_is_refused_where_it_stands() {
    plan("\"money\":{\"costs\":{\"treeEach\":9}}", "#/money/price", "money.price.perKg");
    plan("\"money\":{\"price\":{\"perKg\":-1}}", "#/money/price/perKg", "0");
    plan("\"money\":{\"price\":{}}", "#/money/price/perKg", "");
    plan(
        "\"money\":{\"price\":{\"perKg\":1,\"saleablePercent\":101}}",
        "#/money/price/saleablePercent",
        "100");
    plan(
        "\"money\":{\"price\":{\"perKg\":1},\"discountPercent\":-100}",
        "#/money/discountPercent",
        "-50");
    plan("\"money\":{\"price\":{\"perKg\":1},\"horizonYears\":61}", "#/money/horizonYears", "60");
    plan(
        "\"money\":{\"price\":{\"perKg\":1},\"costs\":{\"guardEach\":-0.5}}",
        "#/money/costs/guardEach",
        "0");
    plan(
        "\"money\":{\"price\":{\"perKg\":1,\"steps\":[{\"fromYear\":9,\"perKg\":1},{\"fromYear\":4,\"perKg\":1}]}}",
        "#/money/price/steps/1/fromYear",
        "rising");
    plan(
        "\"money\":{\"price\":{\"perKg\":1},\"atEndOfLife\":\"wait\"}",
        "#/money/atEndOfLife",
        "replant");
    plan("\"money\":{\"price\":{\"perKg\":1},\"currency\":\" \"}", "#/money/currency", "");
    plan("\"need\":{\"fromYear\":8}", "#/need", "need.boxes");
    compare(PLOT, "#/pairings", "two or more pairings");
    compare(PLOT + ",\"crop\":\"apple\"," + PAIRINGS, "#/pairings", "not both");
    compare(PLOT + ",\"pairings\":[{\"stock\":\"m-9\",\"variety\":\"fuji\"}]", "#/pairings", "2");
    compare(
        PLOT
            + ",\"pairings\":[{\"stock\":\"m-9\",\"variety\":\"fuji\"},{\"stock\":\"m-9\",\"variety\":\"fujj\"}]",
        "#/pairings/1/variety",
        "fuji");
    compare(
        PLOT
            + ",\"pairings\":[{\"stock\":\"m-9\",\"variety\":\"fuji\"},{\"stock\":\"m-9\",\"variety\":\"gala\",\"pricePerKg\":2}]",
        "#/pairings/1",
        "money.price.perKg");
    compare("\"plot\":{\"widthM\":1,\"lengthM\":1}," + PAIRINGS, "#/plot", "none of the pairings");
  }

  private static void plan(String part, String pointer, String says) {
    refused(PLAN, "{" + PLOT + "," + TREES + "," + part + "}", pointer, says);
  }

  private static void compare(String body, String pointer, String says) {
    refused(COMPARE, "{" + body + "}", pointer, says);
  }

  private static void refused(String path, String body, String pointer, String says) {
    given()
        .contentType("application/json")
        .body(body)
        .post(path)
        .then()
        .statusCode(422)
        .contentType("application/problem+json")
        .body("errors.pointer", hasItem(equalTo(pointer)))
        .body("errors.find { it.pointer == '" + pointer + "' }.toString()", containsString(says));
  }

  private static ValidatableResponse post(String path, String body) {
    return given().contentType("application/json").body(body).post(path).then().statusCode(200);
  }
}
