package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import jakarta.validation.constraints.Size;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.service.platform.OneOf;

/** A stock that is new to the catalogue. */
@Schema(name = "StockProposal", description = "A stock, with its crops and spellings.")
public record StockBody(
    @NotNull
        @Pattern(regexp = Slug.FORM, message = Slug.TOLD)
        @Size(min = 1, max = 100)
        @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String id,
    @NotBlank
        @Size(min = 1, max = 100)
        @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "As the trial literature prints it.")
        @Nullable String name,
    @NotNull
        @Pattern(
            regexp = "clone|seedling|interstem|own-roots|class",
            message = "must be one of clone, seedling, interstem, own-roots, class")
        @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description =
                "How it is raised; `class` for a group of stocks that sources speak of as one.")
        @Nullable String kind,
    @NotEmpty
        @Size(min = 1, max = 10)
        @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Crops it is used under.")
        @Nullable List<@NotNull @OneOf(Crop.class) String> crops,
    @Size(min = 1, max = 100)
        @Schema(description = "Id of the stock of which it is a clone or selection.")
        @Nullable String cloneOf,
    @Size(max = 50)
        @Schema(description = "Other spellings and trade designations, for finding it only.")
        @Nullable List<@NotBlank @Size(max = 100) String> synonyms) {

  public static StockBody of(Stock s) {
    return new StockBody(
        s.id(),
        s.name(),
        s.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'),
        s.crops().stream().sorted().map(Crop::id).toList(),
        s.cloneOf(),
        s.synonyms().isEmpty() ? null : List.copyOf(s.synonyms()));
  }

  public Stock stock() {
    Set<Crop> of = EnumSet.noneOf(Crop.class);
    if (crops != null) crops.forEach(crop -> of.add(Crop.of(crop)));
    return new Stock(
        String.valueOf(id),
        String.valueOf(name),
        Stock.Kind.valueOf(String.valueOf(kind).toUpperCase(Locale.ROOT).replace('-', '_')),
        of,
        cloneOf,
        synonyms == null ? List.of() : List.copyOf(synonyms));
  }
}
