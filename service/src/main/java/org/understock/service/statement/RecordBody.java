package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.TraitRecord;
import org.understock.trait.Refusal;
import org.understock.trait.Traits;

/**
 * A statement as a curator sends it.
 *
 * @param trait id of the trait
 * @param method the evidence tag
 * @param source id of the source
 * @param locator where in the source: table, page, section
 * @param supersedes id of an accepted record that this one takes the place of
 */
@Schema(
    name = "RecordProposal",
    description = "One published statement about a trait, to be reviewed.")
public record RecordBody(
    @NotNull @Valid @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable SubjectBody subject,
    @NotBlank
        @Size(min = 1, max = 100)
        @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Id of the trait.")
        @Nullable String trait,
    @NotNull @Valid @Schema(requiredMode = Schema.RequiredMode.REQUIRED) @Nullable ValueBody value,
    @NotBlank
        @Size(min = 1, max = 100)
        @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "How the author came to know it: the evidence tag.",
            allowableValues = {
              "replicated-multi-site",
              "replicated-single-site",
              "expert-rating",
              "breeder-statement",
              "grower-observation",
              "common-practice",
              "from-memory"
            })
        @Nullable String method,
    @NotBlank
        @Size(min = 1, max = 100)
        @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Id of the source.")
        @Nullable String source,
    @NotBlank
        @Size(min = 1, max = 2000)
        @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Where in the source: table, page, section.")
        @Nullable String locator,
    @Valid @Nullable ContextBody context,
    @Size(max = 2000) @Nullable String note,
    @Size(min = 1, max = 40)
        @Schema(
            description =
                "Id of an accepted record that this one takes the place of when it is accepted.")
        @Nullable String supersedes) {

  /**
   * From a pointer at the value or the subject as a whole to the member that says it, where one
   * alone does.
   */
  public String member(String pointer) {
    if (pointer.endsWith("/value") && !pointer.endsWith("/spread/value") && value != null) {
      if (value.level() != null) return pointer + "/level";
      if (value.name() != null) return pointer + "/name";
      return value.quantity() != null ? pointer + "/quantity" : pointer;
    }
    if (pointer.endsWith("/subject")
        && subject != null
        && (subject.stock() == null) != (subject.variety() == null)) {
      return pointer + (subject.stock() != null ? "/stock" : "/variety");
    }
    return pointer;
  }

  /** A record as it would be proposed. */
  public static RecordBody of(TraitRecord r, Traits traits) {
    return new RecordBody(
        SubjectBody.of(r.subject()),
        r.trait(),
        ValueBody.of(r.value(), traits.find(r.trait()).orElse(null)),
        r.method().id(),
        r.source(),
        r.locator(),
        ContextBody.of(r.context()),
        Slug.absent(r.note()),
        null);
  }

  /**
   * The statement for the engine's check.
   *
   * @throws Refusal when a word or form is wrong; what it says is checked by {@link RecordCheck}
   */
  public RecordCheck.Draft draft(Traits traits) {
    if (subject == null
        || trait == null
        || value == null
        || method == null
        || source == null
        || locator == null) throw new IllegalStateException("not validated");
    return new RecordCheck.Draft(
        subject.subject(),
        trait,
        value.value(traits.find(trait).orElse(null)),
        Method.of(method),
        source,
        locator,
        context == null ? Context.NONE : context.context(),
        note == null ? "" : note);
  }
}
