package org.understock.service.advice;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.plant.Crop;
import org.understock.service.platform.OneOf;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/**
 * A request for advice as it comes over the wire: everything may be left out but the crop, and that too when the candidates name a variety. The
 * ranges are those of the engine's values, so that all that is out of range is said at once.
 */
@Schema(name = "AdviceRequest",
    description = "A place, a goal and the pairings to judge. What is left out widens the answer and is named in `assumed`.")
record AdviceRequest(
    @Schema(description = "May be left out when the candidates name a variety.") @OneOf(Crop.class) @Nullable String crop,
    @Valid @Nullable SiteRequest site,
    @Valid @Nullable GoalRequest goal,
    @Valid @Nullable CandidatesRequest candidates,
    @Schema(description = "Answer as of this revision of the evidence; the latest when it is left out.") @Min(1) @Nullable Long revision,
    @Schema(description = "Most pairings, and most ruled-out ones, in the answer.", defaultValue = "10")
    @Min(1) @Max(Question.MOST) @Nullable Integer limit,
    @Schema(description = "List every pairing, or only the best one of each stock or of each variety.", defaultValue = "pairing")
    @OneOf(Question.BestPer.class) @Nullable String bestPer,
    @Schema(description = "Units of the texts; fields are SI always.", defaultValue = "metric") @OneOf(Units.class) @Nullable String units) {

  @Schema(name = "Site", description = "The grower's place.")
  record SiteRequest(
      @Schema(description = "Degrees north.") @DecimalMin("-66") @DecimalMax("66") @Nullable Double latitude,
      @Schema(description = "Air temperature of the coldest night of a usual winter.")
      @DecimalMin("-60") @DecimalMax("20") @Nullable Double coldestNightC,
      @Schema(description = "Hours from 0 to 7.2 °C in a usual winter; not together with chillPortions.")
      @DecimalMin("0") @DecimalMax("4000") @Nullable Double chillHours,
      @Schema(description = "Dynamic Model portions in a usual winter; not together with chillHours.")
      @DecimalMin("0") @DecimalMax("200") @Nullable Double chillPortions,
      @Schema(description = "Days from the last frost of spring to the first of autumn.")
      @DecimalMin("0") @DecimalMax("366") @Nullable Double frostFreeDays,
      @Valid @Nullable SoilRequest soil,
      @OneOf(Site.Irrigation.class) @Nullable String irrigation,
      @OneOf(Site.Wind.class) @Nullable String wind,
      @Schema(description = "Pests and diseases that are present: ids of traits whose levels are resistances.") @Size(max = 50) @Nullable
      List<@NotNull @Size(min = 1, max = 100) String> pressures) {}

  @Schema(name = "Soil")
  record SoilRequest(
      @Schema(description = "USDA texture class.") @OneOf(Soil.Texture.class) @Nullable String texture,
      @Schema(description = "USDA-NRCS natural drainage class.") @OneOf(Soil.Drainage.class) @Nullable String drainage,
      @Schema(description = "Rootable depth.") @DecimalMin("10") @DecimalMax("500") @Nullable Double depthCm,
      @DecimalMin("3") @DecimalMax("10") @Nullable Double ph,
      @Schema(description = "Electrical conductivity of the saturation extract.") @DecimalMin("0") @DecimalMax("30") @Nullable Double salinityDsPerM,
      @OneOf(Soil.Fertility.class) @Nullable String fertility,
      @Schema(description = "Whether the same kind of tree stood here before.") @Nullable Boolean replant) {}

  @Schema(name = "Goal", description = "What the grower wants.")
  record GoalRequest(
      @Schema(description = "Stands for a documented set of priorities.") @OneOf(Goal.Purpose.class) @Nullable String purpose,
      @Schema(description = "Height that the tree must be held at.") @DecimalMin("0.5") @DecimalMax("20") @Nullable Double maxHeightM,
      @Valid @Nullable SpaceRequest spaceM,
      @DecimalMin("1") @DecimalMax("30") @Nullable Double firstCropWithinYears,
      @DecimalMin("1") @DecimalMax("150") @Nullable Double keepForYears,
      @OneOf(Goal.Care.class) @Nullable String care,
      @Schema(description = "What the grower will put up to hold the tree.") @OneOf(Goal.Support.class) @Nullable String support,
      @Schema(description = "Criterion to weight, 0 (does not matter) to 5; each overrides the purpose's.") @Size(max = 100) @Nullable
      Map<@Size(min = 1, max = 100) String, @NotNull @DecimalMin("0") @DecimalMax("5") Double> priorities) {}

  @Schema(name = "Space", description = "The plot.")
  record SpaceRequest(
      @Schema(description = "In metres.") @NotNull @DecimalMin("0.5") @DecimalMax("5000") Double width,
      @Schema(description = "In metres.") @NotNull @DecimalMin("0.5") @DecimalMax("5000") Double length) {}

  @Schema(name = "Candidates", description = "What to judge. Nothing named: all that is advised unasked. Stocks and varieties: all their pairings; "
      + "either alone: against the other side of the catalogue. Pairings: just those. All that is named is joined.")
  record CandidatesRequest(
      @Schema(description = "Ids or usual spellings.") @Size(max = 1000) @Nullable List<@NotNull @Size(min = 1, max = 100) String> stocks,
      @Schema(description = "Ids or usual spellings.") @Size(max = 1000) @Nullable List<@NotNull @Size(min = 1, max = 100) String> varieties,
      @Size(max = 1000) @Nullable List<@NotNull @Valid PairingRequest> pairings) {}

  @Schema(name = "CandidatePairing")
  record PairingRequest(
      @NotNull @Size(min = 1, max = 100) String stock, @NotNull @Size(min = 1, max = 100) String variety,
      @Schema(description = "The asker's own stock-keeping unit; handed back.") @Size(min = 1, max = 100) @Nullable String sku) {}
}
