package org.understock.service.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.filter.Filter;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.understock.service.RunningService;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Replays the examples of the contract ({@code api-spec/examples/<operationId>/<name>.json})
 * against the running service: the whole answer must be the one in the file, and satisfy the
 * contract. Requests of curators name in {@code token} whose they are; {@code acceptLanguage} goes
 * into the header of that name. After a change that is meant, {@code -Dexamples.write=true} writes
 * the answers anew.
 */
class ExamplesTest extends RunningService {
  private static final Path FOLDER = Path.of("../api-spec/examples");
  private static final JsonMapper JSON =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  @TestFactory
  Stream<DynamicTest> examples() throws IOException {
    // Written answers are checked on the next run: until they are there, the contract that shows
    // them cannot be published.
    Filter contract =
        Boolean.getBoolean("examples.write")
            ? (request, answer, context) -> context.next(request, answer)
            : new Contract(given().get("/v3/api-docs").asString());
    List<Path> files;
    try (Stream<Path> walk = Files.walk(FOLDER)) {
      files = walk.filter(file -> file.toString().endsWith(".json")).sorted().toList();
    }
    assertThat(files).hasSizeGreaterThanOrEqualTo(8);
    return files.stream()
        .map(
            file ->
                DynamicTest.dynamicTest(
                    FOLDER.relativize(file).toString(), () -> replay(file, contract)));
  }

  private void replay(Path file, Filter contract) throws IOException {
    ObjectNode example = (ObjectNode) JSON.readTree(Files.readString(file));
    JsonNode request = example.get("request");
    RequestSpecification call = given().filter(contract).urlEncodingEnabled(false);
    if (request.has("token"))
      call.header("Authorization", "Bearer " + token(request.get("token").asString()));
    if (request.has("acceptLanguage"))
      call.header("Accept-Language", request.get("acceptLanguage").asString());
    if (request.has("body"))
      call.contentType("application/json").body(request.get("body").toString());
    if (request.has("lines"))
      call.config(
              RestAssured.config()
                  .encoderConfig(
                      EncoderConfig.encoderConfig()
                          .encodeContentTypeAs(Contract.NDJSON, ContentType.TEXT)))
          .contentType(Contract.NDJSON)
          .body(text(request.get("lines")));
    Response response =
        call.request(request.get("method").asString(), request.get("path").asString());
    boolean lines = String.valueOf(response.getContentType()).startsWith(Contract.NDJSON);
    String kind = lines ? "lines" : "body";
    JsonNode body = lines ? lines(response) : steady(JSON.readTree(response.asString()));
    if (Boolean.getBoolean("examples.write")) {
      ObjectNode written = example.putObject("response");
      written.put("status", response.getStatusCode());
      written.set(kind, body);
      Files.writeString(file, JSON.writeValueAsString(example) + "\n");
    }
    JsonNode expected = example.get("response");
    assertThat(response.getStatusCode()).isEqualTo(expected.get("status").asInt());
    assertThat(JSON.writeValueAsString(body))
        .isEqualTo(JSON.writeValueAsString(expected.get(kind)));
  }

  /** Lines that are no JSON stand in the file as texts. */
  private static String text(JsonNode lines) {
    StringBuilder text = new StringBuilder();
    for (JsonNode line : lines)
      text.append(line.isString() ? line.asString() : line.toString()).append('\n');
    return text.toString();
  }

  private static JsonNode lines(Response response) {
    ArrayNode all = JSON.createArrayNode();
    response
        .asString()
        .lines()
        .map(JSON::readTree)
        .peek(line -> steady(line.path("problem")))
        .forEach(all::add);
    return all;
  }

  /** An example of a curator's request says whose token it comes with. */
  private String token(String whose) {
    return switch (whose) {
      case "proposer" -> tokens().proposer();
      case "reviewer" -> tokens().reviewer();
      default -> throw new IllegalArgumentException("no token of a " + whose);
    };
  }

  /**
   * What differs from run to run: the request's id and the time at which the evidence was loaded.
   */
  private static JsonNode steady(JsonNode body) {
    if (body.has("instance"))
      ((ObjectNode) body).put("instance", "/requests/00000000000000000000000000000000");
    if (body.has("items"))
      body.get("items")
          .forEach(
              item -> {
                if (item.has("createdAt"))
                  ((ObjectNode) item).put("createdAt", "2026-01-01T00:00:00Z");
              });
    if (body.has("createdAt")) ((ObjectNode) body).put("createdAt", "2026-01-01T00:00:00Z");
    if (body.has("next")) ((ObjectNode) body).put("next", "…");
    return body;
  }
}
