package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Source;

/** Where records come from: one publication. */
@Schema(name = "SourceProposal", description = "A publication that records can cite.")
public record SourceBody(
    @NotNull
        @Pattern(regexp = Slug.FORM, message = Slug.TOLD)
        @Size(min = 1, max = 100)
        @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String id,
    @NotNull
        @Pattern(
            regexp =
                "peer-reviewed-trial|peer-reviewed-review|extension-bulletin|breeder-release|handbook|dataset",
            message =
                "must be one of peer-reviewed-trial, peer-reviewed-review, extension-bulletin, breeder-release, handbook, dataset")
        @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String kind,
    @NotBlank @Size(min = 1, max = 1000) @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String title,
    @Size(max = 1000) @Schema(description = "Authors, or the body that published it.")
        @Nullable String authorsOrBody,
    @Pattern(regexp = "\\d{4}([-/]\\d{2,4})?", message = "must be a year such as 2019 or 2014-15")
        @Schema(description = "As printed, such as `2019` or `2014-15`.")
        @Nullable String year,
    @Size(max = 1000) @Schema(description = "Journal, series or publisher, with volume and pages.")
        @Nullable String publication,
    @Size(min = 1, max = 200) @Nullable String doiOrIsbn,
    @Size(max = 1000)
        @Pattern(regexp = "https?://\\S+", message = "must be an http or https address")
        @Nullable String url,
    @Size(max = 2000)
        @Schema(description = "What a reader should know, such as that only the abstract was seen.")
        @Nullable String note,
    @Size(min = 1, max = 100)
        @Schema(description = "Id of the source that this one restates: both count as one voice.")
        @Nullable String origin) {

  public static SourceBody of(Source s) {
    return new SourceBody(
        s.id(),
        s.kind(),
        s.title(),
        Slug.absent(s.authorsOrBody()),
        s.year(),
        Slug.absent(s.publication()),
        s.doiOrIsbn(),
        s.url(),
        Slug.absent(s.note()),
        s.origin());
  }

  /**
   * The source for the engine. @throws org.understock.trait.Refusal when something can't be meant
   */
  public Source source() {
    return new Source(
        String.valueOf(id),
        String.valueOf(kind),
        String.valueOf(title),
        Slug.text(authorsOrBody),
        year,
        Slug.text(publication),
        doiOrIsbn,
        url,
        Slug.text(note),
        origin);
  }
}
