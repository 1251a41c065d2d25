package org.understock.service.contract;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.examples.Example;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.responses.ApiResponse;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
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
 * for lines that are no JSON.
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
    JsonNode body = content(example.path("request"));
    // A request that is refused shows how a problem looks; as a model to copy it would mislead.
    if (!body.isMissingNode() && status.startsWith("2"))
      put(operation.getRequestBody().getContent(), name, summary, body);
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
    put(response.getContent(), name, summary, content(example.path("response")));
  }

  /** The body as the contract shows it: NDJSON is one text. */
  private JsonNode content(JsonNode message) {
    if (!message.has("lines")) return message.path("body");
    StringBuilder text = new StringBuilder();
    for (JsonNode line : message.get("lines"))
      text.append(line.isString() ? line.asString() : line.toString()).append('\n');
    return json.getNodeFactory().stringNode(text.toString());
  }

  private void put(Content content, String name, String summary, JsonNode value) {
    for (Map.Entry<String, MediaType> media : content.entrySet()) {
      if (!media.getKey().endsWith("json")) continue; // the examples hold no pictures
      if (media.getKey().equals(ContractLines.NDJSON) != value.isString()) continue;
      media
          .getValue()
          .addExamples(
              name, new Example().summary(summary).value(json.convertValue(value, Object.class)));
    }
  }
}
