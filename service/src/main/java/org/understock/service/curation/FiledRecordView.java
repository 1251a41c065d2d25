package org.understock.service.curation;

import io.swagger.v3.oas.annotations.media.Schema;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.TraitRecord;
import org.understock.service.statement.ContextBody;
import org.understock.service.statement.SubjectBody;
import org.understock.service.statement.ValueBody;
import org.understock.trait.Traits;

/** A record as curators see it: what it says, its standing and its people. */
@Schema(name = "FiledRecord", description = "A record with its standing and its people.")
record FiledRecordView(
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            allowableValues = {"proposed", "accepted", "rejected", "withdrawn", "superseded"})
        String status,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "0 at first, one more with every change.")
        long version,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) SubjectBody subject,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String trait,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) ValueBody value,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String method,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String source,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String locator,
    @Nullable ContextBody context,
    @Nullable String note,
    @Nullable String supersedes,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String proposedBy,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) Instant proposedAt,
    @Nullable String editedBy,
    @Nullable Instant editedAt,
    @Nullable String reviewedBy,
    @Nullable Instant reviewedAt,
    @Nullable String reviewNote,
    @Schema(description = "The first revision that contains it.") @Nullable Long revisionFrom,
    @Schema(description = "The first revision that no longer contains it.")
        @Nullable Long revisionTo) {

  static FiledRecordView of(FiledRecord f, Traits traits) {
    TraitRecord r = f.record();
    return new FiledRecordView(
        r.id(),
        f.status(),
        f.version(),
        SubjectBody.of(r.subject()),
        r.trait(),
        ValueBody.of(r.value(), traits.find(r.trait()).orElse(null)),
        r.method().id(),
        r.source(),
        r.locator(),
        ContextBody.of(r.context()),
        r.note().isEmpty() ? null : r.note(),
        f.supersedes(),
        f.proposedBy(),
        f.proposedAt(),
        f.editedBy(),
        f.editedAt(),
        f.reviewedBy(),
        f.reviewedAt(),
        f.reviewNote() == null || f.reviewNote().isEmpty() ? null : f.reviewNote(),
        f.revisionFrom(),
        f.revisionTo());
  }
}
