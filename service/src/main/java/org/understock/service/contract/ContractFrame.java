package org.understock.service.contract;

import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.PathItem;
import io.swagger.v3.oas.models.headers.Header;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.info.License;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.servers.Server;
import io.swagger.v3.oas.models.tags.Tag;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.GlobalOpenApiCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.understock.advice.Adviser;
import org.understock.service.limits.RateLimit;
import org.understock.service.platform.StaleHeader;

/**
 * The contract's frame, and what holds for all operations: headers, conditional reads, closed
 * request bodies.
 */
@Configuration(proxyBeanMethods = false)
class ContractFrame {
  /** Read from the database as it stands, and not kept by anybody. */
  private static final Pattern CURATED = Pattern.compile("^/v1/curation/");

  @Bean
  OpenAPI contract() {
    return new OpenAPI()
        .info(
            new Info()
                .title("Understock")
                .version(Adviser.ENGINE_VERSION)
                .license(new License().name("Apache-2.0").identifier("Apache-2.0"))
                .description(
                    "Which rootstock to put under which fruit variety for a grower's site and goals: ranked pairings with reasons, expected size, time to"
                        + " crop, spacing, pollen partners and cautions, from published evidence that can be read back record by record. All numbers are SI, with the"
                        + " unit in the name. Fields may be added within version 1, never renamed; unknown fields and parameters are refused."))
        .servers(List.of(new Server().url("/").description("This service")))
        .components(new Components())
        .tags(
            List.of(
                new Tag().name("Advice").description("Which pairing for which place and purpose."),
                new Tag()
                    .name("Pollination")
                    .description("Who pollinates whom, and what mends a planting."),
                new Tag()
                    .name("Climate")
                    .description("What a place's winters mean for varieties and stocks."),
                new Tag().name("Planting").description("Where the trees go, and what they bear."),
                new Tag()
                    .name("Pairings")
                    .description(
                        "What is on record of a variety on a stock, as a card to hand out."),
                new Tag().name("Catalogue").description("Stocks and varieties."),
                new Tag()
                    .name("Evidence")
                    .description(
                        "Crops, traits, sources, records, what they add up to, and the revisions of it all."),
                new Tag()
                    .name("Curation")
                    .description(
                        "How evidence comes in: proposals, reviews that make revisions, and who did what. With a token.")));
  }

  @Bean
  GlobalOpenApiCustomizer frame() {
    return document -> {
      document.getPaths().keySet().removeIf(path -> !path.startsWith("/v1/"));
      document
          .getPaths()
          .forEach(
              (path, item) ->
                  item.readOperationsMap()
                      .forEach((method, operation) -> describe(path, method, operation)));
      Set<String> closed = new HashSet<>();
      document
          .getPaths()
          .values()
          .forEach(
              item ->
                  item.readOperations()
                      .forEach(
                          operation -> {
                            if (operation.getRequestBody() != null
                                && operation.getRequestBody().getContent() != null) {
                              operation.getRequestBody().setRequired(true);
                              operation
                                  .getRequestBody()
                                  .getContent()
                                  .values()
                                  .forEach(media -> close(document, media.getSchema(), closed));
                            }
                          }));
    };
  }

  private static void describe(String path, PathItem.HttpMethod method, Operation operation) {
    ApiResponse ok =
        operation.getResponses().containsKey("201")
            ? operation.getResponses().get("201")
            : operation.getResponses().get("200");
    if (ok == null)
      throw new IllegalStateException(
          "the operation " + operation.getOperationId() + " has no answer");
    ok.setDescription("The answer.");
    always(ok, "Cache-Control", "How long the answer may be kept.");
    header(
        ok,
        RateLimit.POLICY,
        "What one client may ask: `q` units, which come again within `w` seconds (draft-ietf-httpapi-ratelimit-headers-10)."
            + " Absent where there is no limit.");
    header(ok, RateLimit.REMAINING, "`r` units are left now; in `t` seconds all are there again.");
    if (operation.getResponses().containsKey("201"))
      always(ok, "Location", "Where what was made can be read.");
    if (operation.getParameters() != null
        && operation.getParameters().stream()
            .anyMatch(p -> "Idempotency-Key".equals(p.getName()))) {
      header(
          ok,
          "Idempotency-Replayed",
          "`true` when this is the answer of an earlier request with the same Idempotency-Key.");
    }
    if (CURATED.matcher(path).find()) {
      if (path.endsWith("{id}")) header(ok, "ETag", "Strong; a change must carry it in If-Match.");
      return;
    }
    header(
        ok,
        StaleHeader.NAME,
        "Only while the database is away: when it last answered (an HTTP date). The answer is made from the evidence in"
            + " memory; what has been accepted since is not in it.");
    if (method != PathItem.HttpMethod.GET) return;
    always(ok, "ETag", "Weak; made of revision, engine version and the request.");
    if (operation.getParameters() != null
        && operation.getParameters().stream().anyMatch(p -> "cursor".equals(p.getName()))) {
      always(ok, "Link", "The first page and the next (RFC 8288).");
    }
    operation.addParametersItem(
        new Parameter()
            .in("header")
            .name("If-None-Match")
            .required(false)
            .schema(new Schema<String>().types(Set.of("string")))
            .description("Entity tags of answers at hand: 304 when one still holds."));
    ApiResponse held = new ApiResponse().description("The answer at hand still holds.");
    always(held, "ETag", "The one that holds.");
    operation.getResponses().addApiResponse("304", held);
  }

  /** A header without which the answer is not what the contract says. */
  static void always(ApiResponse response, String name, String description) {
    header(response, name, description);
    Objects.requireNonNull(response.getHeaders().get(name)).setRequired(true);
  }

  static void header(ApiResponse response, String name, String description) {
    response.addHeaderObject(
        name,
        new Header().description(description).schema(new Schema<String>().types(Set.of("string"))));
  }

  /** Unknown fields are refused, so the schemas of request bodies say that there are none. */
  @SuppressWarnings("rawtypes")
  private static void close(OpenAPI document, @Nullable Schema schema, Set<String> done) {
    if (schema == null) return;
    if (schema.get$ref() != null) {
      String name = schema.get$ref().substring(schema.get$ref().lastIndexOf('/') + 1);
      if (done.add(name)) close(document, document.getComponents().getSchemas().get(name), done);
      return;
    }
    if (schema.getProperties() != null) {
      if (schema.getAdditionalProperties() == null) schema.setAdditionalProperties(Boolean.FALSE);
      for (Object property : schema.getProperties().values())
        close(document, (Schema) property, done);
    }
    close(document, schema.getItems(), done);
  }
}
