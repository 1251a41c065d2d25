package org.understock.service.contract;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.media.ArraySchema;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.Schema;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.GlobalOpenApiCustomizer;
import org.springframework.stereotype.Component;

/**
 * Tells NDJSON for what it is on the wire, a text; and what stands on each line as the schema of
 * the text's content (JSON Schema 2020-12, {@code contentSchema}): OpenAPI 3.1 has no other word
 * for it.
 */
@Component
class ContractLines implements GlobalOpenApiCustomizer {
  static final String NDJSON = "application/x-ndjson";

  @Override
  public void customise(OpenAPI document) {
    document
        .getPaths()
        .values()
        .forEach(
            item ->
                item.readOperations()
                    .forEach(
                        operation -> {
                          if (operation.getRequestBody() != null)
                            tell(operation.getRequestBody().getContent());
                          operation.getResponses().values().forEach(r -> tell(r.getContent()));
                        }));
  }

  private static void tell(@Nullable Content content) {
    MediaType media = content == null ? null : content.get(NDJSON);
    if (media == null || media.getSchema() == null || media.getSchema().get$ref() == null) return;
    Schema<?> lines =
        new ArraySchema()
            .types(Set.of("array"))
            .items(media.getSchema())
            .description("One a line.");
    Schema<?> text = new Schema<String>().types(Set.of("string"));
    text.setContentMediaType(NDJSON);
    text.setContentSchema(lines);
    media.setSchema(text);
  }
}
