package org.understock.service.climate;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What the winters of a place mean, as it goes over the wire. */
@Schema(name = "ChillAnswer")
record ChillResponse(
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Revision of the evidence that was asked.")
        long revision,
    @Schema(requiredMode = RequiredMode.REQUIRED) String engineVersion,
    @Schema(requiredMode = RequiredMode.REQUIRED) SeasonAnswer season,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The oldest first.")
        List<WinterAnswer> winters,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "How many of them are known whole; chances, safe chill and trends rest on these.")
        int completeWinters,
    @Schema(
            description =
                "What nine of ten complete winters exceed; absent without a complete winter.")
        @Nullable SafeChillAnswer safeWinterChill,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Change over the complete winters; empty with fewer than eight.")
        List<TrendAnswer> trends,
    @Schema(description = "Absent without a complete winter.") @Nullable ColdAnswer winterCold,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<VarietyAnswer> varieties,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<StockAnswer> stocks,
    @Schema(description = "The same for the warmer climate that was asked for.")
        @Nullable WarmedAnswer warmed,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "How the figures were come by, and what was not read.")
        List<String> notes,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Sources of all records that the answer cites.")
        List<CitedAnswer> sources) {

  @Schema(name = "SeasonAnswer")
  record SeasonAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) String from,
      @Schema(requiredMode = RequiredMode.REQUIRED) String to) {}

  @Schema(name = "Winter")
  record WinterAnswer(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "2024/25, or 2024 for a season within one year.")
          String winter,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "`partial`: the series begins or ends in it, and the figures are those of the"
                      + " part that is"
                      + " known. `refused`: a gap is too long, no figures.",
              allowableValues = {"complete", "partial", "refused"})
          String standing,
      @Schema(description = "Hours from 0 to 7.2 °C, both ends counted.")
          @Nullable Double chillHours,
      @Nullable Double utahUnits,
      @Schema(description = "Utah units of which warmth takes none away.")
          @Nullable Double positiveUtahUnits,
      @Schema(description = "Portions of the Dynamic Model.") @Nullable Double chillPortions,
      @Nullable Double growingDegreeHours,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Hours of the season that were not measured, bridged ones among them.")
          int missingHours,
      @Schema(description = "Lowest temperature of the days that are known whole.")
          @Nullable Double coldestNightC,
      @Schema(description = "What is missing.") @Nullable String text) {}

  @Schema(name = "SafeWinterChill")
  record SafeChillAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) double chillHours,
      @Schema(requiredMode = RequiredMode.REQUIRED) double utahUnits,
      @Schema(requiredMode = RequiredMode.REQUIRED) double chillPortions) {}

  @Schema(
      name = "ChillTrend",
      description = "Median of the slopes between all pairs of winters, with an 80 % interval.")
  record TrendAnswer(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"chill-portions", "utah-units", "chill-hours"})
          String measure,
      @Schema(requiredMode = RequiredMode.REQUIRED) double perDecade,
      @Schema(requiredMode = RequiredMode.REQUIRED) double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double high) {}

  @Schema(name = "WinterCold")
  record ColdAnswer(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Mean over the complete winters of the coldest night.")
          double meanColdestNightC,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "The coldest night of all.")
          double lowestC,
      @Schema(description = "USDA half zone by that mean; absent off the scale.")
          @Nullable String hardinessZone) {}

  @Schema(name = "ClimatePlant")
  record Plant(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name) {}

  @Schema(name = "VarietyInClimate")
  record VarietyAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) Plant variety,
      @Schema(requiredMode = RequiredMode.REQUIRED) String crop,
      @Schema(
              description =
                  "Chance that a winter of the place meets the first of the needs; absent when none is on record or no winter is complete.")
          @Nullable Double chanceMet,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Records behind `chanceMet`.")
          List<String> records,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Requirements on record, each held against chill in its own measure.")
          List<NeedAnswer> needs,
      @Schema(description = "Absent when nothing is on record of the cold that it bears.")
          @Nullable SurvivalAnswer winterCold,
      @Schema(description = "Absent when nothing tells when it blooms: say it in `bloom`.")
          @Nullable BloomAnswer bloom) {}

  @Schema(name = "ChillNeed")
  record NeedAnswer(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"chill-portions", "utah-units", "chill-hours"})
          String measure,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "10th percentile of what it needs in a winter.")
          double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double likely,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "90th percentile.") double high,
      @Nullable Double chanceMet,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "WinterSurvival")
  record SurvivalAnswer(
      @Schema(
              description =
                  "Air temperature that it is said to bear; absent for a stock known by a word alone.")
          @Nullable Double limitC,
      @Schema(
              description =
                  "Chance that it comes through a winter of the place; absent without a complete winter.")
          @Nullable Double chanceSurvives,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "BloomInClimate")
  record BloomAnswer(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"chill-then-heat", "told", "other-variety"})
          String basis,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Month and day.")
          String fullBloom,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Standard deviation of the day in a year.")
          double spreadDays,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(
              description =
                  "Growing degree hours from the end of rest to full bloom; for basis chill-then-heat.")
          @Nullable Double heatGdh,
      @Schema(description = "Expected day of each winter; for basis chill-then-heat.")
          @Nullable List<ExpectedBloom> expected,
      @Schema(
              description =
                  "Absent where the crop's critical temperatures are not published or no year has all nights around bloom.")
          @Nullable FrostAnswer frost) {}

  @Schema(name = "ExpectedBloom")
  record ExpectedBloom(
      @Schema(requiredMode = RequiredMode.REQUIRED) String winter,
      @Schema(requiredMode = RequiredMode.REQUIRED, format = "date") String date) {}

  @Schema(name = "FrostAtBloom")
  record FrostAnswer(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Number of years in which all nights are known.")
          int years,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Mean over years of the share of flowers and young fruit killed.")
          double meanShareKilled,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Share of years in which nine tenths or more are killed.")
          double shareOfYearsLost,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<StageAnswer> stages,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Where the critical temperatures are from.")
          String source) {}

  @Schema(name = "FrostByStage")
  record StageAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) String stage,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Days from full bloom to the stage's first night.")
          int fromDays,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Days from full bloom to its last night.")
          int toDays,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Half an hour at it kills a tenth.")
          double kill10C,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Half an hour at it kills nine tenths.")
          double kill90C,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Share of years with a night that kills a tenth or more.")
          double chanceTenth,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Share of years with a night that kills nine tenths or more.")
          double chanceNineTenths,
      @Schema(requiredMode = RequiredMode.REQUIRED) double meanShareKilled) {}

  @Schema(name = "StockInClimate")
  record StockAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) Plant stock,
      @Schema(description = "Absent when nothing is on record of the cold that it bears.")
          @Nullable SurvivalAnswer winterCold) {}

  @Schema(name = "WarmedClimate")
  record WarmedAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) double warmingC,
      @Nullable SafeChillAnswer safeWinterChill,
      @Nullable ColdAnswer winterCold,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<VarietyAnswer> varieties,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<StockAnswer> stocks) {}

  @Schema(name = "ClimateSource")
  record CitedAnswer(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String citation) {}
}
