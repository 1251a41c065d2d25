package org.understock.service.contract;

import io.swagger.v3.core.converter.ModelConverters;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.responses.ApiResponse;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.springdoc.core.customizers.GlobalOpenApiCustomizer;
import org.springframework.core.Ordered;
import org.springframework.stereotype.Component;
import org.understock.service.problem.Problem;
import org.understock.service.problem.ProblemType;

/** Lists in the contract, for each operation, every problem that it can answer with. */
@Component
class ContractProblems implements GlobalOpenApiCustomizer, Ordered {
  /** Operations that wait for their turn. */
  private static final Set<String> WORKED =
      Set.of("advise", "adviseBatch", "planPlanting", "foreseeImpact", "listGaps");

  private static final String TOKEN_LACKS = "What the token lacks (RFC 6750).";

  @Override
  public int getOrder() {
    return LOWEST_PRECEDENCE;
  }

  @Override
  public void customise(OpenAPI document) {
    ModelConverters.getInstance(true)
        .readAll(Problem.class)
        .forEach(document.getComponents()::addSchemas);
    Schema<?> problem =
        Objects.requireNonNull(document.getComponents().getSchemas().get("Problem"));
    problem.setRequired(List.of("type", "title", "status", "detail", "instance"));
    Schema<?> error =
        Objects.requireNonNull(document.getComponents().getSchemas().get("ProblemError"));
    error.setRequired(List.of("detail"));
    error
        .getProperties()
        .put(
            "given",
            new Schema<>()
                .description("What was sent; texts are cut after 80 characters.")
                .types(new java.util.LinkedHashSet<>(List.of("string", "number", "boolean"))));
    document
        .getPaths()
        .forEach((path, item) -> item.readOperations().forEach(operation -> add(path, operation)));
    new ContractExamples()
        .addTo(document); // last: examples of refusals need the problems to be there
  }

  private static void add(String path, Operation operation) {
    Set<ProblemType> types =
        EnumSet.of(
            ProblemType.MALFORMED_REQUEST,
            ProblemType.NOT_ACCEPTABLE,
            ProblemType.URI_TOO_LONG,
            ProblemType.HEADERS_TOO_LARGE,
            ProblemType.TOO_MANY_REQUESTS,
            ProblemType.INTERNAL);
    boolean asOf =
        operation.getParameters() != null
            && operation.getParameters().stream().anyMatch(p -> "revision".equals(p.getName()));
    if (asOf || path.contains("{")) types.add(ProblemType.NOT_FOUND);
    if (asOf || operation.getRequestBody() != null) types.add(ProblemType.DATABASE_AWAY);
    if (operation.getRequestBody() != null) {
      types.addAll(
          EnumSet.of(
              ProblemType.TOO_LARGE,
              ProblemType.TOO_SLOW,
              ProblemType.UNSUPPORTED_MEDIA_TYPE,
              ProblemType.INVALID_REQUEST,
              ProblemType.UNKNOWN_ID));
    }
    if (WORKED.contains(operation.getOperationId())) types.add(ProblemType.BUSY);
    if (path.startsWith("/v1/curation/")) types.addAll(curated(operation));
    types.stream()
        .collect(Collectors.groupingBy(ProblemType::status, TreeMap::new, Collectors.toList()))
        .forEach(
            (status, kinds) ->
                operation
                    .getResponses()
                    .addApiResponse(
                        String.valueOf(status), response(kinds, schema(operation, status))));
  }

  /** A file that is refused for its rows is told as a problem and as an import's outcome in one. */
  private static Schema<?> schema(Operation operation, int status) {
    Schema<?> problem = reference("Problem");
    if (status != 422 || !"importFile".equals(operation.getOperationId())) return problem;
    return new Schema<>()
        .anyOf(
            List.of(new Schema<>().allOf(List.of(problem, reference("ImportOutcome"))), problem));
  }

  private static Schema<?> reference(String name) {
    return new Schema<>().$ref("#/components/schemas/" + name);
  }

  /**
   * What curators meet besides: that they need a token, work of others, and the database, from
   * which all of theirs is read. Told by the path: springdoc calls its customizers in no order that
   * one could ask for, and which token an operation needs may be written later.
   */
  private static Set<ProblemType> curated(Operation operation) {
    Set<ProblemType> types =
        EnumSet.of(
            ProblemType.DATABASE_AWAY,
            ProblemType.UNAUTHORIZED,
            ProblemType.FORBIDDEN,
            ProblemType.ISSUER_AWAY);
    if (operation.getRequestBody() == null) return types;
    if (takes(operation, "Idempotency-Key"))
      types.addAll(EnumSet.of(ProblemType.KEY_REUSED, ProblemType.CONFLICT));
    if (takes(operation, "If-Match"))
      types.addAll(
          EnumSet.of(ProblemType.PRECONDITION_REQUIRED, ProblemType.STALE, ProblemType.CONFLICT));
    if ("review".equals(operation.getOperationId())) types.add(ProblemType.FOUR_EYES);
    if ("foreseeImpact".equals(operation.getOperationId())) types.add(ProblemType.CONFLICT);
    return types;
  }

  private static boolean takes(Operation operation, String header) {
    return operation.getParameters() != null
        && operation.getParameters().stream().anyMatch(p -> header.equals(p.getName()));
  }

  private static ApiResponse response(List<ProblemType> kinds, Schema<?> schema) {
    ApiResponse response =
        new ApiResponse()
            .description(
                kinds.stream()
                        .map(kind -> kind.title() + " (`" + kind.address() + "`)")
                        .collect(Collectors.joining("; or: "))
                    + ".")
            .content(
                new Content()
                    .addMediaType("application/problem+json", new MediaType().schema(schema)));
    if (kinds.contains(ProblemType.STALE))
      ContractFrame.header(response, "ETag", "The tag that holds now.");
    if (kinds.get(0) == ProblemType.UNAUTHORIZED)
      ContractFrame.always(response, "WWW-Authenticate", TOKEN_LACKS);
    if (kinds.get(0) == ProblemType.FORBIDDEN)
      ContractFrame.header(response, "WWW-Authenticate", TOKEN_LACKS);
    if (kinds.get(0).status() == 503 || kinds.get(0).status() == 429)
      ContractFrame.always(response, "Retry-After", "Seconds after which to try again.");
    if (kinds.get(0) == ProblemType.UNSUPPORTED_MEDIA_TYPE)
      ContractFrame.header(response, "Accept-Post", "Media types that are read.");
    return response;
  }
}
