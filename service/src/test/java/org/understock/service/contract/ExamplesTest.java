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
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.springframework.test.context.TestPropertySource;
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
 * into the header of that name, {@code headers} into those that they name. What writes has a {@code
 * turn}: it comes after all that has none, in that order, on a database of this test's own; {@code
 * keep} names what of its answer stands in braces in the path of a later one. After a change that
 * is meant, {@code -Dexamples.write=true} writes the answers anew.
 */
@TestPropertySource(properties = "understock.curation.four-eyes=true")
class ExamplesTest extends RunningService {
  private static final Path FOLDER = Path.of("../api-spec/examples");
  private static final JsonMapper JSON =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  /** When something came to be, by whatever name. */
  private static final Pattern TIME =
      Pattern.compile("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d(?:\\.\\d+)?Z");

  /** Ids of imports are drawn by lot, as those of requests are. */
  private static final Pattern LOT = Pattern.compile("\\bi-[0-9a-f]{16}\\b");

  private static final Pattern REQUEST = Pattern.compile("\\b[0-9a-f]{32}\\b");

  private final Map<String, String> kept = new HashMap<>();

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
      files = files.stream().sorted(Comparator.comparingInt(ExamplesTest::turn)).toList();
    }
    assertThat(files).hasSizeGreaterThanOrEqualTo(8);
    return files.stream()
        .map(
            file ->
                DynamicTest.dynamicTest(
                    FOLDER.relativize(file).toString(), () -> replay(file, contract)));
  }

  private static int turn(Path file) {
    try {
      return JSON.readTree(Files.readString(file)).path("turn").asInt(0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void replay(Path file, Filter contract) throws IOException {
    ObjectNode example = (ObjectNode) JSON.readTree(Files.readString(file));
    JsonNode request = example.get("request");
    RequestSpecification call = given().filter(contract).urlEncodingEnabled(false);
    if (request.has("token"))
      call.header("Authorization", "Bearer " + token(request.get("token").asString()));
    if (request.has("acceptLanguage"))
      call.header("Accept-Language", request.get("acceptLanguage").asString());
    request
        .path("headers")
        .properties()
        .forEach(header -> call.header(header.getKey(), header.getValue().asString()));
    if (request.has("csv"))
      call.config(
              RestAssured.config()
                  .encoderConfig(
                      EncoderConfig.encoderConfig()
                          .encodeContentTypeAs("text/csv", ContentType.TEXT)))
          .contentType("text/csv")
          .body(text(request.get("csv")));
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
        call.request(request.get("method").asString(), path(request.get("path").asString()));
    example
        .path("keep")
        .properties()
        .forEach(
            name ->
                kept.put(
                    name.getKey(),
                    JSON.readTree(response.asString()).at(name.getValue().asString()).asString()));
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

  private String path(String path) {
    String filled = path;
    for (Map.Entry<String, String> name : kept.entrySet())
      filled = filled.replace("{" + name.getKey() + "}", name.getValue());
    assertThat(filled).as("kept so far: " + kept).doesNotContain("{");
    return filled;
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
      case "admin" -> tokens().admin();
      default -> throw new IllegalArgumentException("no token of a " + whose);
    };
  }

  /** Leaves in place what differs from run to run: times, what is drawn by lot, cursors. */
  private static JsonNode steady(JsonNode body) {
    if (body.has("instance"))
      ((ObjectNode) body).put("instance", "/requests/00000000000000000000000000000000");
    if (body.has("next")) ((ObjectNode) body).put("next", "…");
    if (body.isMissingNode()) return body;
    String text = body.toString();
    text = TIME.matcher(text).replaceAll("2026-01-01T00:00:00Z");
    text = LOT.matcher(text).replaceAll("i-0000000000000000");
    text = REQUEST.matcher(text).replaceAll("00000000000000000000000000000000");
    return JSON.readTree(text);
  }
}
