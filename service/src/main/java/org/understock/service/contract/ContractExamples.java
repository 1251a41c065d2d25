package org.understock.service.contract;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.examples.Example;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.responses.ApiResponse;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.springframework.core.io.Resource;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Puts the request/answer pairs of {@code api-spec/examples/<operationId>/<name>.json} into the
 * contract. The tests replay the same files.
 *
 * <p>Each file: {@code summary}, {@code request} ({@code method}, {@code path}, {@code body}, whose
 * {@code token}, {@code acceptLanguage}) and {@code response} ({@code status}, {@code body}). What
 * is sent or answered as NDJSON is in {@code lines} in place of {@code body}: JSON values, or texts
 * for lines that are no JSON; what is sent as CSV, line by line in {@code csv}.
 */
final class ContractExamples {
  private static final String FILES = "classpath*:contract/examples/*/*.json";

  private final JsonMapper json = new JsonMapper();

  /**
   * @throws IllegalStateException when an example is of no operation or has a status that the
   *     contract lacks
   */
  void addTo(OpenAPI document) {
    try {
      List<Resource> files =
          Arrays.stream(new PathMatchingResourcePatternResolver().getResources(FILES))
              .sorted(Comparator.comparing(Resource::toString))
              .toList();
      for (Resource file : files) {
        String[] path = file.getURL().getPath().split("/");
        try (InputStream stream = file.getInputStream()) {
          add(
              document,
              path[path.length - 2],
              path[path.length - 1].replace(".json", ""),
              json.readTree(stream));
        }
      }
    } catch (IOException e) {
      throw new IllegalStateException("the contract's examples can't be read", e);
    }
  }

  private void add(OpenAPI document, String operationId, String name, JsonNode example) {
    Operation operation =
        document.getPaths().values().stream()
            .flatMap(item -> item.readOperations().stream())
            .filter(o -> operationId.equals(o.getOperationId()))
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalStateException(
                        "there are examples for the operation "
                            + operationId
                            + ", which does not exist"));
    String summary = example.path("summary").asString();
    String status = example.path("response").path("status").asString();
    JsonNode request = example.path("request");
    // A request that is refused shows how a problem looks; as a model to copy it would mislead.
    if (status.startsWith("2") && operation.getRequestBody() != null)
      put(operation.getRequestBody().getContent(), name, summary, request);
    ApiResponse response = operation.getResponses().get(status);
    if (response == null)
      throw new IllegalStateException(
          "the example "
              + operationId
              + "/"
              + name
              + " has the status "
              + status
              + ", which is not in the contract");
    put(response.getContent(), name, summary, example.path("response"));
  }

  private void put(Content content, String name, String summary, JsonNode message) {
    content.forEach(
        (type, media) -> {
          JsonNode value = shown(type, message);
          if (!value.isMissingNode())
            media.addExamples(
                name, new Example().summary(summary).value(json.convertValue(value, Object.class)));
        });
  }

  /** The body as the contract shows it: lines are one text. The examples hold no pictures. */
  private JsonNode shown(String type, JsonNode message) {
    if (type.equals(ContractLines.NDJSON)) return text(message.path("lines"));
    if (type.equals("text/csv")) return text(message.path("csv"));
    return type.endsWith("json") ? message.path("body") : json.missingNode();
  }

  private JsonNode text(JsonNode lines) {
    if (lines.isMissingNode()) return lines;
    StringBuilder text = new StringBuilder();
    for (JsonNode line : lines)
      text.append(line.isString() ? line.asString() : line.toString()).append('\n');
    return json.getNodeFactory().stringNode(text.toString());
  }
}
