package org.understock.service.pages;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;

import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;

/** The headers without which browsers would not take the widget, or would take too much. */
class WidgetDoorsTest extends RunningService {
  @Test
  void letsEveryPageLoadTheWidgetButNotAsk() {
    given()
        .header("Origin", "https://shop.example")
        .get("/widget/understock-advice.js")
        .then()
        .statusCode(200)
        .header("Access-Control-Allow-Origin", "*")
        .header("Content-Type", startsWith("text/javascript"))
        .header("Cache-Control", containsString("max-age=600"))
        .header("ETag", startsWith("W/\""));
    given()
        .header("Origin", "https://shop.example")
        .get("/v1/crops")
        .then()
        .statusCode(200)
        .header("Access-Control-Allow-Origin", nullValue());
  }

  @Test
  void answersWithNothingNewWhereNothingChanged() {
    String tag = given().get("/widget/messages/es.json").getHeader("ETag");
    given().header("If-None-Match", tag).get("/widget/messages/es.json").then().statusCode(304);
  }

  @Test
  void allowsNothingInlineOnItsPages() {
    for (String path : new String[] {"/", "/demo/office.html", "/demo/nursery.html"}) {
      given()
          .get(path)
          .then()
          .statusCode(200)
          .header("Content-Security-Policy", containsString("script-src 'self'"))
          .body(containsString("<understock-advice"));
    }
  }
}
