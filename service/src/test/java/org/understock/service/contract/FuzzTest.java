package org.understock.service.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Spoils the contract's own examples and sends them: whatever comes, the answer is one that the
 * contract tells, never a fault of the service, and shows nothing of its inside. A short run in
 * every build; {@code -Dfuzz.requests=200000} for a long one, {@code -Dfuzz.seed} for another.
 */
@TestPropertySource(properties = "understock.limits.per-minute=0")
class FuzzTest extends RunningService {
  private static final int USUAL_REQUESTS = 1000;
  private static final int MOST_FAULTS = 20;
  private static final JsonMapper JSON = JsonMapper.shared();
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
  private static final RestAssuredConfig AS_IT_IS =
      RestAssured.config()
          .encoderConfig(
              EncoderConfig.encoderConfig()
                  .appendDefaultContentCharsetToContentTypeIfUndefined(false));

  private final SplittableRandom random = new SplittableRandom(Long.getLong("fuzz.seed", 1));
  private final List<String> faults = new ArrayList<>();
  private final Map<Integer, Integer> byStatus = new TreeMap<>();

  private record Seed(String method, String path, JsonNode body, String token) {}

  @Test
  void whatever_comes_is_answered_as_the_contract_says() throws IOException {
    Contract contract = new Contract(given().get("/v3/api-docs").asString());
    List<Seed> seeds = seeds();
    int requests = Integer.getInteger("fuzz.requests", USUAL_REQUESTS);
    for (int k = 0; k < requests && faults.size() < MOST_FAULTS; k++)
      send(contract, seeds.get(k % seeds.size()));
    System.out.println("spoiled requests: " + requests + ", answers by status " + byStatus);
    assertThat(faults).isEmpty();
    assertThat(byStatus.keySet()).contains(200, 400, 422);
  }

  private List<Seed> seeds() throws IOException {
    List<Seed> seeds = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(Path.of("../api-spec/examples"))) {
      for (Path file : walk.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        JsonNode request = JSON.readTree(Files.readString(file)).get("request");
        if (request.has("lines") || request.has("csv")) continue;
        // What another example has to make first.
        if (request.get("path").asString().contains("{")) continue;
        seeds.add(
            new Seed(
                request.get("method").asString(),
                request.get("path").asString(),
                request.path("body"),
                request.path("token").asString("")));
      }
    }
    assertThat(seeds).hasSizeGreaterThan(40);
    return seeds;
  }

  private void send(Contract contract, Seed seed) {
    String plain = seed.path().replaceFirst("\\?.*", "");
    String path =
        random.nextInt(4) == 0
            ? spoiledPath(seed.path(), contract.queryParameters(seed.method(), plain))
            : seed.path();
    RequestSpecification call = given().config(AS_IT_IS).urlEncodingEnabled(false);
    if (!seed.token().isEmpty())
      call.header(
          "Authorization",
          "Bearer "
              + (seed.token().equals("reviewer") ? tokens().reviewer() : tokens().proposer()));
    if (random.nextInt(12) == 0)
      call.header(
          pick(
              "Accept",
              "Accept-Encoding",
              "Accept-Language",
              "Authorization",
              "Idempotency-Key",
              "If-None-Match",
              "Origin",
              "Range",
              "X-Forwarded-For",
              "X-Forwarded-Host",
              "X-Request-Id"),
          pick(
              "",
              "*",
              "\"",
              "x".repeat(5000),
              "en;q=2",
              "\u00e4",
              "text/csv",
              "Bearer a.b.c",
              ","));
    String sent = "";
    if (!seed.body().isMissingNode()) {
      byte[] body = spoiledBody(seed.body());
      sent = new String(body, StandardCharsets.ISO_8859_1);
      call.header("Content-Type", "application/json").body(body);
    }
    String told =
        seed.method() + " " + shown(path) + (sent.isEmpty() ? "" : " with " + shown(sent));
    try {
      Response answer = call.request(seed.method(), path);
      byStatus.merge(answer.getStatusCode(), 1, Integer::sum);
      String text = answer.asString();
      if (answer.getStatusCode() >= 500)
        faults.add(told + " was answered " + answer.getStatusCode() + ": " + shown(text));
      else if (text.contains("Exception") || text.contains("\tat ") || text.contains("org.springf"))
        faults.add(told + " shows the inside: " + shown(text));
      else if (path.replaceFirst("\\?.*", "").equals(plain))
        contract.check(seed.method(), URI.create(plain).getPath(), answer);
    } catch (AssertionError | RuntimeException e) {
      faults.add(told + ": " + shown(String.valueOf(e.getMessage())));
    }
  }

  private static String shown(String text) {
    return text.length() <= 400 ? text : text.substring(0, 400) + "…";
  }

  private String spoiledPath(String path, List<String> parameters) {
    String odd =
        pick(
            "%00",
            "%ff",
            "..%2f..",
            "%F0%9F%8D%8E",
            "-1",
            "1e999",
            "NaN",
            "null",
            "%27%20or%201=1",
            "x".repeat(3000),
            "",
            "%E2%80%AE",
            "a&a=b&a=c",
            "9223372036854775808");
    int query = path.indexOf('?');
    int cut = path.lastIndexOf('/');
    return switch (random.nextInt(4)) {
      case 0 ->
          path
              + (query < 0 ? "?" : "&")
              + (parameters.isEmpty() || random.nextInt(6) == 0
                  ? "ghost"
                  : pick(parameters.toArray(String[]::new)))
              + "="
              + odd;
      case 1 -> query < 0 ? path + "/" + odd : path.substring(0, path.indexOf('=') + 1) + odd;
      case 2 -> path.substring(0, cut + 1) + odd;
      default -> path.replaceFirst("v1", pick("v1", "v2", "V1", "v1/", "v1/.")) + "?format=" + odd;
    };
  }

  private byte[] spoiledBody(JsonNode body) {
    if (random.nextInt(12) == 0) {
      byte[] raw = new byte[random.nextInt(200)];
      random.nextBytes(raw);
      return raw;
    }
    JsonNode copy = body.deepCopy();
    int times = 1 + random.nextInt(3);
    for (int k = 0; k < times; k++) spoil(copy, 0);
    String text = copy.toString();
    if (random.nextInt(10) == 0) text = text.substring(0, random.nextInt(text.length()));
    if (random.nextInt(20) == 0)
      text = text.replaceFirst(":", ":" + pick("NaN", "-0", "1e400", "01", "'x'", "\u0000"));
    return text.getBytes(
        random.nextInt(20) == 0 ? StandardCharsets.UTF_16 : StandardCharsets.UTF_8);
  }

  /** Goes down a random way and changes what it comes to. */
  private void spoil(JsonNode node, int depth) {
    if (node instanceof ObjectNode object && !object.isEmpty()) {
      List<String> names = new ArrayList<>(object.propertyNames());
      String name = names.get(random.nextInt(names.size()));
      JsonNode child = object.get(name);
      if (child.isContainer() && !child.isEmpty() && random.nextInt(4) > 0) spoil(child, depth + 1);
      else
        switch (random.nextInt(6)) {
          case 0 -> object.remove(name);
          case 1 -> object.set(name + pick("x", " ", "\u0000"), odd());
          default -> object.set(name, child.isNumber() ? number(child) : odd());
        }
    } else if (node instanceof ArrayNode array && !array.isEmpty()) {
      int at = random.nextInt(array.size());
      JsonNode child = array.get(at);
      if (child.isContainer() && !child.isEmpty() && random.nextInt(4) > 0) spoil(child, depth + 1);
      else
        switch (random.nextInt(5)) {
          case 0 -> array.remove(at);
          case 1 -> array.add(child.deepCopy());
          case 2 -> {
            for (int k = 0; k < 400; k++) array.add(child.deepCopy());
          }
          default -> array.set(at, child.isNumber() ? number(child) : odd());
        }
    }
  }

  private JsonNode number(JsonNode given) {
    double value = given.asDouble(1);
    double[] tries = {
      -value, value * 1000, value / 1000, 0, -1, 1e308, 1e-308, 1e17, value + 0.5, Integer.MAX_VALUE
    };
    return random.nextInt(3) == 0 ? odd() : NODES.numberNode(tries[random.nextInt(tries.length)]);
  }

  private JsonNode odd() {
    return switch (random.nextInt(12)) {
      case 0 -> NODES.nullNode();
      case 1 -> NODES.booleanNode(true);
      case 2 -> NODES.arrayNode();
      case 3 -> NODES.objectNode();
      case 4 -> NODES.stringNode("");
      case 5 -> NODES.stringNode("a".repeat(5000));
      case 6 ->
          NODES.stringNode(pick("\u0000", "\uD83C\uDF4E", "\uFFFF", "<script>", "M 106", "fuji"));
      case 7 -> NODES.numberNode(new java.math.BigDecimal("1e999"));
      case 8 -> NODES.numberNode(Long.MAX_VALUE);
      case 9 -> NODES.arrayNode().add(NODES.arrayNode().add(1));
      case 10 -> NODES.objectNode().put("widthM", 1).put("min", -1);
      default -> NODES.stringNode(pick("2024-02-30", "02-29", "apple", "-12", "1", "true"));
    };
  }

  private String pick(String... from) {
    return from[random.nextInt(from.length)];
  }
}
