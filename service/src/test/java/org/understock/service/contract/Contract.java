package org.understock.service.contract;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialects;
import io.restassured.filter.Filter;
import io.restassured.filter.FilterContext;
import io.restassured.response.Response;
import io.restassured.specification.FilterableRequestSpecification;
import io.restassured.specification.FilterableResponseSpecification;
import java.net.URI;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Holds every answer against the contract that the service itself publishes: the path must be in
 * it, the status and the media type must be among those of the operation, the headers that it
 * always has must be there, and the body must satisfy the schema. Anything else is a failure.
 */
public final class Contract implements Filter {
  static final String NDJSON = "application/x-ndjson";
  private static final String BASE = "https://contract";

  private final JsonNode document;
  private final SchemaRegistry registry;

  public Contract(String json) {
    document = JsonMapper.shared().readTree(json);
    registry =
        SchemaRegistry.withDialect(
            Dialects.getOpenApi31(), builder -> builder.schemas(Map.of(BASE, json)));
  }

  @Override
  public Response filter(
      FilterableRequestSpecification request,
      FilterableResponseSpecification specification,
      FilterContext context) {
    Response response = context.next(request, specification);
    check(request.getMethod(), URI.create(request.getURI()).getPath(), response);
    return response;
  }

  void check(String method, String path, Response response) {
    for (Map.Entry<String, JsonNode> entry : document.get("paths").properties()) {
      if (!path.matches(entry.getKey().replaceAll("\\{[^/]+}", "[^/]+"))) continue;
      JsonNode operation = entry.getValue().get(method.toLowerCase(Locale.ROOT));
      if (operation == null) continue;
      check(entry.getKey(), method.toLowerCase(Locale.ROOT), operation, response);
      return;
    }
    throw new AssertionError(method + " " + path + " is not in the contract");
  }

  /** Names of the query's parameters that the operation knows. */
  List<String> queryParameters(String method, String path) {
    for (Map.Entry<String, JsonNode> entry : document.get("paths").properties()) {
      if (!path.matches(entry.getKey().replaceAll("\\{[^/]+}", "[^/]+"))) continue;
      return entry
          .getValue()
          .path(method.toLowerCase(Locale.ROOT))
          .path("parameters")
          .valueStream()
          .map(p -> p.has("$ref") ? document.at(p.get("$ref").asString().substring(1)) : p)
          .filter(p -> p.path("in").asString("").equals("query"))
          .map(p -> p.get("name").asString())
          .toList();
    }
    return List.of();
  }

  private void check(String path, String method, JsonNode operation, Response response) {
    String status = String.valueOf(response.getStatusCode());
    String what = method + " " + path + " " + status;
    JsonNode described = operation.get("responses").get(status);
    if (described == null)
      throw new AssertionError(
          what + " is a status that the contract does not have: " + response.asString());
    String place =
        path.replace("~", "~0").replace("/", "~1").replace("{", "%7B").replace("}", "%7D");
    String pointer = "#/paths/" + place + "/" + method + "/responses/" + status;
    if (described.has("$ref")) {
      pointer = described.get("$ref").asString();
      described = document.at(pointer.substring(1));
    }
    described
        .path("headers")
        .properties()
        .forEach(
            header -> {
              if (!header.getValue().path("required").asBoolean(false)
                  || response.getHeaders().hasHeaderWithName(header.getKey())) return;
              throw new AssertionError(
                  what
                      + " lacks the header "
                      + header.getKey()
                      + ", which it must have by the contract");
            });
    if (!described.has("content")) {
      if (response.asByteArray().length > 0)
        throw new AssertionError(what + " has a body, which the contract does not have");
      return;
    }
    String media = String.valueOf(response.getContentType()).replaceAll(";.*", "");
    if (!described.get("content").has(media))
      throw new AssertionError(
          what + " has the media type " + media + ", which the contract does not have");
    if (!described.get("content").get(media).has("schema"))
      throw new AssertionError(what + " has no schema");
    String at = pointer + "/content/" + media.replace("/", "~1").replace("+", "%2B") + "/schema";
    if (media.equals(NDJSON)) {
      if (!described.get("content").get(media).get("schema").has("contentSchema")) return;
      Schema schema = registry.getSchema(SchemaLocation.of(BASE + at + "/contentSchema/items"));
      response.asString().lines().forEach(line -> satisfies(schema, line, what));
      return;
    }
    // What is no JSON is to the contract one long text.
    String body = response.asString();
    String json = media.endsWith("json") ? body : JsonMapper.shared().writeValueAsString(body);
    satisfies(registry.getSchema(SchemaLocation.of(BASE + at)), json, what);
  }

  private static void satisfies(Schema schema, String json, String what) {
    var errors = schema.validate(json, InputFormat.JSON);
    if (!errors.isEmpty())
      throw new AssertionError(what + " does not satisfy the contract: " + errors);
  }
}
