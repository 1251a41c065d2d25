package org.understock.service.pollination;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A planting checked as a whole, as it goes over the wire. */
@Schema(name = "PollinationAnswer")
record PollinationResponse(
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Revision of the evidence that was asked.")
        long revision,
    @Schema(requiredMode = RequiredMode.REQUIRED) String engineVersion,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Whether every variety is known to get pollen that works while it blooms.")
        boolean complete,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            allowableValues = {"complete", "unsure", "incomplete"},
            description =
                "`incomplete`: a variety is known to get no pollen. `unsure`: none is, but of one the evidence does not say.")
        String outcome,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The outcome in plain English.")
        String text,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Ids of varieties that are known to get no pollen that works in time.")
        List<String> unpollinated,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Ids of varieties that may get pollen, though the evidence does not say.")
        List<String> unsure,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "What each variety gets, in the order asked.")
        List<Receipt> varieties,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Every ordered pair, and each variety with itself; by receiver, then giver, in the order asked.")
        List<Pair> pairs,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Varieties to add: those of the best options first, the likely ones last. See `mendings` for which go together.")
        List<Suggestion> suggestions,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "What would mend the planting, for each kind of fruit that is not served whole.")
        List<Mending> mendings,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Sources of all records that the answer cites.")
        List<CitedSource> sources) {

  @Schema(name = "NamedVariety")
  record Named(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name) {}

  @Schema(name = "PollenReceipt")
  record Receipt(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name,
      @Schema(requiredMode = RequiredMode.REQUIRED) String crop,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"served", "unsure", "unserved"})
          String state,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids of the others here that are sure to pollinate it.")
          List<String> donors,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"self-fertile", "partly", "needs-one", "needs-two", "unknown"},
              description = "What it needs, whatever stands here.")
          String need,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) Bloom bloom) {}

  @Schema(
      name = "Bloom",
      description = "When it blooms. Groups and days are absent where none are recorded.")
  record Bloom(
      @Schema(
              description =
                  "Usual full bloom, in days after that of `reference`; pooled over the sources.")
          @Nullable Double fullBloomDay,
      @Schema(description = "10th percentile of that day over places.")
          @Nullable Double fullBloomDayLow,
      @Schema(description = "90th percentile of that day over places.")
          @Nullable Double fullBloomDayHigh,
      @Schema(description = "The variety of the crop from which the days count.")
          @Nullable Named reference,
      @Schema(allowableValues = {"early", "early-mid", "mid", "mid-late", "late"})
          @Nullable String group,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "PollenPair")
  record Pair(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Id of the variety that gives pollen.")
          String pollen,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Id of the variety that receives it.")
          String receiver,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "What the pollen can do, bloom time aside. `partial`: part of it works, usually half.",
              allowableValues = {"full", "partial", "none", "unknown"})
          String verdict,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"good", "some", "poor", "unknown"})
          String bloomOverlap,
      @Schema(
              description =
                  "Chance that the two share at least three days of bloom at some place; absent where days are not recorded for both.")
          @Nullable Double chanceOfOverlap,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "The weakest grade among the records behind the verdict; D for a rule.",
              allowableValues = {"A", "B", "C", "D"})
          String grade,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "PollenSuggestion")
  record Suggestion(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Ids of varieties that now lack pollen and that it is sure to serve. Empty when it is there to serve another addition.")
          List<String> mends,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Ids of those that it most likely serves, though their alleles are not recorded.")
          List<String> mayMend,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Whether it belongs to an option that is sure to mend; likely to, otherwise.")
          boolean proven) {}

  @Schema(name = "PollenMending")
  record Mending(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids that each of the options serves.")
          List<String> mends,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "As few varieties to add as will do, which also pollinate each other where they must; the best option first: all of the pollen"
                      + " and a good overlap, then the best known.")
          List<List<Named>> options,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Whether it is certain that no fewer would do.")
          boolean fewest,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids that none of the varieties to choose from is known to serve.")
          List<String> beyond,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Where something is `beyond`: additions with which all would most likely be served.")
          List<List<Named>> likely,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Ids out of `beyond` that the planting as it is most likely serves, though it is"
                      + " not proven.")
          List<String> likelyServed,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids that nothing even likely serves.")
          List<String> stillBeyond) {}

  @Schema(name = "PollinationSource")
  record CitedSource(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String citation) {}
}
