package org.understock.service.advice;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Advice as it goes over the wire. */
@Schema(name = "Advice")
record AdviceResponse(
    @Schema(description = "The request's `id`.") @Nullable String id,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Revision of the evidence that was asked.")
        long revision,
    @Schema(requiredMode = RequiredMode.REQUIRED) String engineVersion,
    @Schema(requiredMode = RequiredMode.REQUIRED) String crop,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Number of pairings looked at, those ruled out included.")
        int considered,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Mean score of the pairings that were not ruled out; a pairing's score is this plus all its effects.")
        double meanScore,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "How far the site and the goal let any of the pairings come.")
        Reach reach,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "How much each criterion weighed, the heaviest first; they add up to 1.")
        List<Weight> weights,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Fields that were not told and therefore assumed.")
        List<String> assumed,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "What was assumed in place of each.")
        List<Assumption> assumptions,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The best first.")
        List<Pairing> pairings,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Pairings that a limit rules out; at most `limit` of them.")
        List<RuledOut> ruledOut,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "How many were ruled out in all.")
        int ruledOutCount,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Notice> notices,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Sources of all records that the answer cites.")
        List<CitedSource> sources) {

  /** The same answer under another name of the asker's own for the question. */
  AdviceResponse named(@Nullable String id) {
    return new AdviceResponse(
        id,
        revision,
        engineVersion,
        crop,
        considered,
        meanScore,
        reach,
        weights,
        assumed,
        assumptions,
        pairings,
        ruledOut,
        ruledOutCount,
        notices,
        sources);
  }

  @Schema(name = "Named", description = "A stock or a variety.")
  record Named(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name) {}

  @Schema(
      name = "Reach",
      description =
          "What the best of the considered pairings comes to; on a hard site even the best scores low.")
  record Reach(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Score of the best pairing, 0 to 100; 0 when all were ruled out.")
          double bestScore,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What keeps the best one from more.")
          String text) {}

  @Schema(name = "CriterionWeight")
  record Weight(
      @Schema(requiredMode = RequiredMode.REQUIRED) String criterion,
      @Schema(requiredMode = RequiredMode.REQUIRED) String label,
      @Schema(requiredMode = RequiredMode.REQUIRED) double weight) {}

  @Schema(name = "Assumption")
  record Assumption(
      @Schema(requiredMode = RequiredMode.REQUIRED) String field,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  @Schema(name = "AdvisedPairing")
  record Pairing(
      @Schema(requiredMode = RequiredMode.REQUIRED) int rank,
      @Schema(requiredMode = RequiredMode.REQUIRED) Named stock,
      @Schema(requiredMode = RequiredMode.REQUIRED) Named variety,
      @Nullable String sku,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "0 to 100.") double score,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "10th and 90th percentile of the score over the draws.")
          ScoreRange scoreRange,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "The score in percent of `reach.bestScore`: 100 is the best of the pairings looked at.")
          int percentOfBest,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Share of the draws in which it came first.")
          double chanceBest,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Other clones of the same stock that do as well here under this variety, as far as the evidence can tell. "
                      + "Clones that the request names are listed by themselves.")
          List<Named> alsoClones,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "The largest effect first.")
          List<Reason> reasons,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<Caution> cautions,
      @Schema(requiredMode = RequiredMode.REQUIRED) ExpectationsResponse expectations,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Varieties that give it pollen, the best first.")
          List<Partner> partners,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Where little is known.")
          List<Thin> thinEvidence,
      @Schema(description = "What separates it from the next one; absent on the last.")
          @Nullable String aheadOfNext) {}

  @Schema(name = "ScoreRange")
  record ScoreRange(
      @Schema(requiredMode = RequiredMode.REQUIRED) double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double high) {}

  @Schema(name = "Reason")
  record Reason(
      @Schema(requiredMode = RequiredMode.REQUIRED) String criterion,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Points by which it lifts or lowers this pairing against the mean of the considered ones.")
          double effect,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "How well the criterion is met, 0 to 1.")
          double met,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids of the records that it rests on.")
          List<String> records) {}

  @Schema(name = "Caution")
  record Caution(
      @Schema(requiredMode = RequiredMode.REQUIRED) String code,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "Partner")
  record Partner(
      @Schema(requiredMode = RequiredMode.REQUIRED) Named variety,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What its pollen does.",
              allowableValues = {"full", "partial", "none", "unknown"})
          String pollen,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"good", "some", "poor", "unknown"})
          String bloomOverlap,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  @Schema(name = "ThinEvidence")
  record Thin(
      @Schema(requiredMode = RequiredMode.REQUIRED) String trait,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  @Schema(name = "RuledOutPairing")
  record RuledOut(
      @Schema(requiredMode = RequiredMode.REQUIRED) Named stock,
      @Schema(requiredMode = RequiredMode.REQUIRED) Named variety,
      @Nullable String sku,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<Limit> limits) {}

  @Schema(name = "Limit")
  record Limit(
      @Schema(requiredMode = RequiredMode.REQUIRED) String criterion,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "Notice")
  record Notice(
      @Schema(requiredMode = RequiredMode.REQUIRED) String code,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  @Schema(name = "CitedSource")
  record CitedSource(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String citation,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "The best grade among the estimates that its cited records support.",
              allowableValues = {"A", "B", "C", "D"})
          String grade) {}
}
