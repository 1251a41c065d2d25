package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.service.platform.OneOf;

/** A variety that is new to the catalogue. */
@Schema(name = "VarietyProposal", description = "A variety, with its crop and spellings.")
public record VarietyBody(
    @NotNull
        @Pattern(regexp = Slug.FORM, message = Slug.TOLD)
        @Size(min = 1, max = 100)
        @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String id,
    @NotNull @OneOf(Crop.class) @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String crop,
    @NotBlank
        @Size(min = 1, max = 100)
        @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "The cultivar denomination.")
        @Nullable String name,
    @Size(max = 50)
        @Schema(description = "Other spellings and trade designations, for finding it only.")
        @Nullable List<@NotBlank @Size(max = 100) String> synonyms) {

  public static VarietyBody of(Variety v) {
    return new VarietyBody(
        v.id(), v.crop().id(), v.name(), v.synonyms().isEmpty() ? null : List.copyOf(v.synonyms()));
  }

  public Variety variety() {
    return new Variety(
        String.valueOf(id),
        Crop.of(String.valueOf(crop)),
        String.valueOf(name),
        synonyms == null ? List.of() : List.copyOf(synonyms));
  }
}
