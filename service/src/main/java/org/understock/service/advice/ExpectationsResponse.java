package org.understock.service.advice;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.growth.Expectations;
import org.understock.growth.LogNormal;
import org.understock.growth.YearYield;
import org.understock.service.reading.Rounding;

/**
 * What to expect of one pairing: 10th, 50th and 90th percentiles, rounded to what can be told apart
 * in an orchard.
 */
@Schema(name = "Expectations")
record ExpectationsResponse(
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "Height as kept.") Range heightM,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "Width of the crown as kept.")
        Range spreadM,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Season after planting, 1 = the first.")
        Years firstCropYear,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Season after planting, 1 = the first.")
        Years fullCropYear,
    @Schema(requiredMode = RequiredMode.REQUIRED) Years productiveLifeYears,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Crop of a full-grown tree in a year.")
        Range matureYieldKgPerTree,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "For as many years as the planting is to be kept, at most 60; for 20 when that is not told.")
        List<YieldOfYear> yearlyYieldKgPerTree,
    @Schema(requiredMode = RequiredMode.REQUIRED) double inRowSpacingM,
    @Schema(requiredMode = RequiredMode.REQUIRED) double rowSpacingM,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "At this spacing, headlands not taken off.")
        long treesPerHa,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            allowableValues = {"none", "until-established", "permanent"})
        String support) {

  private static final int USUAL_YEARS = 20;
  private static final int MOST_YEARS = 60;

  @Schema(name = "Range", description = "10th, 50th and 90th percentile.")
  record Range(
      @Schema(requiredMode = RequiredMode.REQUIRED) double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) double high) {}

  @Schema(name = "Years", description = "10th, 50th and 90th percentile, in whole years.")
  record Years(
      @Schema(requiredMode = RequiredMode.REQUIRED) long low,
      @Schema(requiredMode = RequiredMode.REQUIRED) long likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) long high) {}

  @Schema(name = "YieldOfYear")
  record YieldOfYear(
      @Schema(requiredMode = RequiredMode.REQUIRED) int year,
      @Schema(requiredMode = RequiredMode.REQUIRED) double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) double high) {
    static YieldOfYear of(YearYield y) {
      return new YieldOfYear(
          y.year(), Rounding.kg(y.low()), Rounding.kg(y.likely()), Rounding.kg(y.high()));
    }
  }

  /**
   * @param keepForYears how long the planting is to be kept, or null when that was not told
   */
  static ExpectationsResponse of(Expectations e, @Nullable Double keepForYears) {
    int years =
        keepForYears == null ? USUAL_YEARS : (int) Math.min(MOST_YEARS, Math.ceil(keepForYears));
    return new ExpectationsResponse(
        metres(e.heightM()),
        metres(e.spreadM()),
        years(e.firstCropYear()),
        years(e.fullCropYear()),
        years(e.lifeYears()),
        new Range(
            Rounding.kg(e.matureYieldKg().p10()),
            Rounding.kg(e.matureYieldKg().median()),
            Rounding.kg(e.matureYieldKg().p90())),
        e.yearlyYield(years).stream().map(YieldOfYear::of).toList(),
        Rounding.tenths(e.inRowM()),
        Rounding.tenths(e.rowM()),
        Math.round(e.treesPerHa()),
        e.support().likely().id());
  }

  private static Range metres(LogNormal m) {
    return new Range(
        Rounding.tenths(m.p10()), Rounding.tenths(m.median()), Rounding.tenths(m.p90()));
  }

  private static Years years(LogNormal y) {
    return new Years(Rounding.years(y.p10()), Rounding.years(y.median()), Rounding.years(y.p90()));
  }
}
