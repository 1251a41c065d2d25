package org.understock.service.security;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.springframework.boot.test.web.server.LocalManagementPort;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/** Management on a port of its own: metrics without a token there, nothing on the other port. */
@TestPropertySource(
    properties = {"management.server.port=0", "management.endpoints.web.exposure.include=*"})
class ManagementPortTest extends RunningService {
  @LocalManagementPort private int management;

  @Test
  void metrics_and_health_are_open_there_and_nothing_else_is() {
    assertThat(given().port(management).get("/actuator/prometheus").asString())
        .contains("understock_revision");
    for (String health : new String[] {"health", "health/liveness", "health/readiness"})
      given().port(management).get("/actuator/" + health).then().statusCode(200);
    for (String path : new String[] {"env", "threaddump", "beans"})
      assertThat(given().port(management).get("/actuator/" + path).getStatusCode())
          .as(path)
          .isEqualTo(401);
    given().get("/actuator/prometheus").then().statusCode(404);
    given().get("/actuator/health").then().statusCode(404);
  }
}
