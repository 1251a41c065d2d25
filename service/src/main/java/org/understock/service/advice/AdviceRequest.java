package org.understock.service.advice;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.plant.Crop;
import org.understock.service.place.GoalRequest;
import org.understock.service.place.SiteRequest;
import org.understock.service.platform.OneOf;

/**
 * A request for advice as it comes over the wire: everything may be left out but the crop, and that
 * too when the candidates name a variety. The ranges are those of the engine's values, so that all
 * that is out of range is said at once.
 */
@Schema(
    name = "AdviceRequest",
    description =
        "A place, a goal and the pairings to judge. What is left out widens the answer and is named in `assumed`.")
record AdviceRequest(
    @Schema(description = "The asker's own name for the question; handed back.")
        @Size(min = 1, max = AdviceRequest.LONGEST_ID)
        @Nullable String id,
    @Schema(description = "May be left out when the candidates name a variety.") @OneOf(Crop.class)
        @Nullable String crop,
    @Valid @Nullable SiteRequest site,
    @Valid @Nullable GoalRequest goal,
    @Valid @Nullable CandidatesRequest candidates,
    @Schema(
            description =
                "Answer as of this revision of the evidence; the latest when it is left out.")
        @Min(1)
        @Nullable Long revision,
    @Schema(
            description = "Most pairings, and most ruled-out ones, in the answer.",
            defaultValue = "10")
        @Min(1)
        @Max(Question.MOST)
        @Nullable Integer limit,
    @Schema(
            description =
                "List every pairing, or only the best one of each stock or of each variety.",
            defaultValue = "pairing")
        @OneOf(Question.BestPer.class)
        @Nullable String bestPer,
    @Schema(description = "Units of the texts; fields are SI always.", defaultValue = "metric")
        @OneOf(Units.class)
        @Nullable String units) {
  static final int LONGEST_ID = 100;

  /** The same question under another name of the asker's own. */
  AdviceRequest named(@Nullable String id) {
    return new AdviceRequest(id, crop, site, goal, candidates, revision, limit, bestPer, units);
  }

  @Schema(
      name = "Candidates",
      description =
          "What to judge. Nothing named: all that is advised unasked. Stocks and varieties: all their pairings; "
              + "either alone: against the other side of the catalogue. Pairings: just those. All that is named is joined.")
  record CandidatesRequest(
      @Schema(description = "Ids or usual spellings.") @Size(max = 1000)
          @Nullable List<@NotNull @Size(min = 1, max = 100) String> stocks,
      @Schema(description = "Ids or usual spellings.") @Size(max = 1000)
          @Nullable List<@NotNull @Size(min = 1, max = 100) String> varieties,
      @Size(max = 1000) @Nullable List<@NotNull @Valid PairingRequest> pairings) {}

  @Schema(name = "CandidatePairing")
  record PairingRequest(
      @NotNull @Size(min = 1, max = 100) String stock,
      @NotNull @Size(min = 1, max = 100) String variety,
      @Schema(description = "The asker's own stock-keeping unit; handed back.")
          @Size(min = 1, max = 100)
          @Nullable String sku) {}
}
