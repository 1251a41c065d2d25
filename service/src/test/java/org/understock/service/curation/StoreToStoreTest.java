package org.understock.service.curation;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;
import org.understock.service.Tokens;
import org.understock.service.UnderstockApplication;

/**
 * Everything that one store has accepted, imported into a store without evidence and accepted
 * there, is the same content.
 */
@TestPropertySource(properties = "understock.starter-evidence=false")
class StoreToStoreTest extends RunningService {
  @Test
  void what_is_exported_is_imported_to_the_same_digest() throws Exception {
    Path home = Files.createTempDirectory("understock-other");
    try (ConfigurableApplicationContext other =
        new SpringApplicationBuilder(UnderstockApplication.class)
            .run("--server.port=0", "--understock.home=" + home)) {
      int from =
          Integer.parseInt(String.valueOf(other.getEnvironment().getProperty("local.server.port")));
      String there = Tokens.ofHome(home).reviewer();
      Response exports =
          given().port(from).header("Authorization", "Bearer " + there).get("/v1/curation/exports");
      assertThat((String) content()).isNotEqualTo(exports.path("contentDigest"));
      List<String> imports = new ArrayList<>();
      for (Map<String, Object> file : exports.<List<Map<String, Object>>>path("files")) {
        byte[] bytes =
            given()
                .port(from)
                .header("Authorization", "Bearer " + there)
                .get((String) file.get("path"))
                .asByteArray();
        Response imported =
            given()
                .header("Authorization", "Bearer " + tokens().proposer())
                .header("Content-Type", file.get("mediaType") + ";charset=UTF-8")
                .body(bytes)
                .post("/v1/curation/imports?kind=" + file.get("kind"));
        assertThat(imported.statusCode())
            .as(file.get("kind") + ": " + imported.asString())
            .isEqualTo(201);
        int rows = ((Number) file.get("rows")).intValue();
        boolean again = file.get("kind").equals("records"); // the statements once more, as NDJSON
        assertThat(((Number) imported.path(again ? "duplicates" : "proposed")).intValue())
            .as((String) file.get("kind"))
            .isEqualTo(rows);
        if (!again) imports.add(imported.path("id"));
      }
      for (String id : imports) {
        Response review =
            given()
                .header("Authorization", "Bearer " + tokens().reviewer())
                .contentType("application/json")
                .body(Map.of("acceptImport", id))
                .post("/v1/curation/reviews");
        assertThat(review.statusCode()).as(review.asString()).isEqualTo(201);
      }
      assertThat((String) content()).isEqualTo(exports.path("contentDigest"));
    }
  }

  private Object content() {
    return given()
        .header("Authorization", "Bearer " + tokens().reviewer())
        .get("/v1/curation/exports")
        .path("contentDigest");
  }
}
