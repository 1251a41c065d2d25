package org.understock.service.planting;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Question;
import org.understock.economics.Money;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.planting.ComparisonQuestion;
import org.understock.planting.PlantingQuestion;
import org.understock.planting.Years;
import org.understock.service.place.GoalRequest;
import org.understock.service.place.Places;
import org.understock.service.place.SiteRequest;
import org.understock.service.platform.OneOf;

/** What to hold against each other on one plot, as it comes over the wire. */
@Schema(
    name = "PlantingComparisonRequest",
    description =
        "A plot, and the pairings to plant on it, one at a time: either named, or the best that advice finds in a crop for the place and goal.")
record PlantingComparisonRequest(
    @NotNull @Valid PlantingPlanRequest.PlotRequest plot,
    @Schema(description = "Crop whose best pairings are compared; not together with `pairings`.")
        @OneOf(Crop.class)
        @Nullable String crop,
    @Valid @Nullable CandidatesRequest candidates,
    @Schema(description = "The pairings to compare.") @Size(min = 2, max = ComparisonQuestion.MOST)
        @Nullable List<@NotNull @Valid ComparedRequest> pairings,
    @Schema(
            description =
                "Pollen partners that every planting gets, as few as do it; one of the same variety is left out.")
        @Size(max = 5)
        @Nullable List<@NotNull @Valid PartnerRequest> partners,
    @Valid @Nullable SiteRequest site,
    @Valid @Nullable GoalRequest goal,
    @Valid PlantingPlanRequest.@Nullable LayoutRequest layout,
    @Valid PlantingPlanRequest.@Nullable PollenRequest pollen,
    @Schema(description = "Trees to buy beyond those planted.", defaultValue = "4")
        @DecimalMin("0")
        @DecimalMax("50")
        @Nullable Double sparePercent,
    @Schema(
            description = "Most plantings to compare, where advice chooses them.",
            defaultValue = "5")
        @Min(2)
        @Max(ComparisonQuestion.MOST)
        @Nullable Integer most,
    @Schema(
            description =
                "Whether advice gives its best pairings, or only the best one of each stock or of each variety.",
            defaultValue = "stock")
        @OneOf(Question.BestPer.class)
        @Nullable String bestPer,
    @Schema(description = "Prices and costs; without them kilograms are compared.") @Valid
        @Nullable MoneyRequest money,
    @Schema(
            description =
                "How far to look; without it as long as the planting is to be kept, or 20. The money's horizon goes first.")
        @Min(1)
        @Max(Years.MOST)
        @Nullable Integer years,
    @Schema(
            description =
                "Answer as of this revision of the evidence; the latest when it is left out.")
        @Min(1)
        @Nullable Long revision) {

  @Schema(
      name = "PlantingCandidates",
      description =
          "Among what advice chooses; without it all of the crop that is advised unasked.")
  record CandidatesRequest(
      @Schema(description = "Ids or usual spellings.") @Size(max = 1000)
          @Nullable List<@NotNull @Size(min = 1, max = 100) String> stocks,
      @Schema(description = "Ids or usual spellings.") @Size(max = 1000)
          @Nullable List<@NotNull @Size(min = 1, max = 100) String> varieties) {}

  @Schema(name = "PairingToCompare")
  record ComparedRequest(
      @Schema(description = "Id or usual spelling.") @NotNull @Size(min = 1, max = 100)
          String stock,
      @Schema(description = "Id or usual spelling.") @NotNull @Size(min = 1, max = 100)
          String variety,
      @Schema(description = "Price of its fruit in all years, in place of `money.price`.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double pricePerKg,
      @Schema(description = "Cost of its tree, in place of `money.costs.treeEach`.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double treeEach) {}

  @Schema(name = "PollenPartnerToPlant")
  record PartnerRequest(
      @Schema(description = "Id or usual spelling.") @NotNull @Size(min = 1, max = 100)
          String stock,
      @Schema(description = "Id or usual spelling.") @NotNull @Size(min = 1, max = 100)
          String variety) {}

  ComparisonQuestion question(TraitBook book) {
    int horizon = Plans.years(years, goal);
    Money reckoned = money == null ? null : money.money(horizon);
    return new ComparisonQuestion(
        Plans.plot(plot),
        Plans.layout(layout),
        Places.site(site, book),
        Places.goal(goal),
        Plans.pollen(pollen),
        Objects.requireNonNullElse(sparePercent, PlantingQuestion.USUAL_SPARE_PERCENT),
        crop == null ? null : Crop.of(crop),
        candidates == null || candidates.stocks() == null ? List.of() : candidates.stocks(),
        candidates == null || candidates.varieties() == null ? List.of() : candidates.varieties(),
        pairings == null
            ? List.of()
            : pairings.stream()
                .map(
                    p ->
                        new ComparisonQuestion.Named(
                            p.stock(), p.variety(), p.pricePerKg(), p.treeEach()))
                .toList(),
        partners == null
            ? List.of()
            : partners.stream()
                .map(p -> new ComparisonQuestion.Partner(p.stock(), p.variety()))
                .toList(),
        Objects.requireNonNullElse(most, 5),
        Objects.requireNonNullElse(
            Places.word(Question.BestPer.class, "bestPer", bestPer), Question.BestPer.STOCK),
        reckoned,
        reckoned == null ? horizon : reckoned.horizonYears());
  }
}
