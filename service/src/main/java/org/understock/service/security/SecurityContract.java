package org.understock.service.security;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.security.SecurityRequirement;
import io.swagger.v3.oas.models.security.SecurityScheme;
import java.util.List;
import java.util.Objects;
import org.springdoc.core.customizers.GlobalOpenApiCustomizer;
import org.springframework.stereotype.Component;

/**
 * Writes into the contract which token each operation asks for, from the table by which it is let
 * in.
 */
@Component
class SecurityContract implements GlobalOpenApiCustomizer {
  private static final String SCHEME = "token";

  @Override
  public void customise(OpenAPI document) {
    document
        .getPaths()
        .forEach(
            (path, item) ->
                item.readOperationsMap()
                    .forEach((method, operation) -> secure(method.name(), path, operation)));
    if (document.getPaths().keySet().stream()
        .noneMatch(path -> path.startsWith(CurationRights.ROOT))) return;
    document
        .getComponents()
        .addSecuritySchemes(
            SCHEME,
            new SecurityScheme()
                .type(SecurityScheme.Type.HTTP)
                .scheme("bearer")
                .bearerFormat("JWT")
                .description(
                    "A JWT of the issuer that the operator configured, with the audience `understock` unless configured otherwise, and the scope"
                        + " that the operation asks for in `scope` or `scp`. No scope implies another. On the embedded database with nothing configured the service"
                        + " prints a token per scope when it starts. Operations that ask for no token don't look at one."));
  }

  private static void secure(String method, String path, Operation operation) {
    if (!path.startsWith(CurationRights.ROOT)) {
      operation.setSecurity(List.of());
      return;
    }
    Right right =
        CurationRights.of(method, path)
            .orElseThrow(
                () ->
                    new IllegalStateException(
                        "nobody may call "
                            + method
                            + " "
                            + path
                            + ": it is not in the table of rights under "
                            + CurationRights.ROOT));
    // In words too: not every reader of a contract shows scopes, least of all of a bearer scheme.
    String description = Objects.requireNonNullElse(operation.getDescription(), "");
    operation.setDescription(
        (description + " Asks for a token with `" + right.scopes().replace(" or ", "` or `") + "`.")
            .strip());
    operation.setSecurity(
        right.anyOf().stream()
            .map(scope -> new SecurityRequirement().addList(SCHEME, scope.word()))
            .toList());
  }
}
