package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.media.Schema;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Source;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.service.statement.ContextBody;
import org.understock.service.statement.SubjectBody;
import org.understock.service.statement.ValueBody;

/** A record as answers give it: one published statement about a trait. */
@Schema(name = "Record", description = "One published statement about a trait, with its source.")
record RecordView(
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) SubjectBody subject,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String trait,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) ValueBody value,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "How the author came to know it: the evidence tag.")
        String method,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Id of the source.")
        String source,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String citation,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Where in the source: table, page, section.")
        String locator,
    @Nullable ContextBody context,
    @Nullable String note) {

  static RecordView of(TraitBook book, TraitRecord record) {
    Source source = Objects.requireNonNull(book.evidence().sources().get(record.source()));
    return new RecordView(
        record.id(),
        SubjectBody.of(record.subject()),
        record.trait(),
        ValueBody.of(record.value(), book.traits().find(record.trait()).orElse(null)),
        record.method().id(),
        record.source(),
        source.citation(),
        record.locator(),
        ContextBody.of(record.context()),
        record.note().isEmpty() ? null : record.note());
  }
}
