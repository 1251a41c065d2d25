package org.understock.service.climate;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.climate.NightRule;
import org.understock.plant.Crop;
import org.understock.service.platform.OneOf;
import org.understock.service.series.BloomBody;
import org.understock.service.series.DayBody;
import org.understock.service.series.HourlyBody;
import org.understock.service.series.SeasonBody;
import org.understock.service.series.TemperatureUnit;

/**
 * Temperatures of a place and what to hold against them. The series itself is checked value by
 * value in {@code SeriesOf}, not by constraints.
 */
@Schema(
    name = "ChillRequest",
    description =
        "Temperatures of a place as `daily` or `hourly`, and the varieties and stocks to hold against its"
            + " winters.")
record ChillRequest(
    @Schema(description = "Degrees north.", requiredMode = Schema.RequiredMode.REQUIRED)
        @NotNull
        @DecimalMin("-66")
        @DecimalMax("66")
        Double latitude,
    @Schema(description = "Daily extremes in order of days; in place of `hourly`.")
        @Nullable List<@Nullable DayBody> daily,
    @Valid @Nullable HourlyBody hourly,
    @Schema(
            description =
                "Unit of the temperatures that are sent, whatever their fields are called; answers are in °C always.",
            defaultValue = "celsius")
        @OneOf(TemperatureUnit.class)
        @Nullable String units,
    @Schema(
            description =
                "From 10-01 to 03-31 in the north and from 04-01 to 09-30 in the south when left out.")
        @Valid
        @Nullable SeasonBody season,
    @Schema(
            description = "How temperatures fall by night between daily extremes.",
            defaultValue = "continuous")
        @OneOf(NightRule.class)
        @Nullable String nightRule,
    @Schema(
            description =
                "Crop of the varieties and stocks. Without varieties: all of the crop of which a chilling requirement is on record.")
        @OneOf(Crop.class)
        @Nullable String crop,
    @Schema(description = "Ids or usual spellings.") @Size(max = 200)
        @Nullable List<@NotNull @Size(min = 1, max = 100) String> varieties,
    @Schema(description = "Ids or usual spellings; with a crop or a variety that tells it.")
        @Size(max = 200)
        @Nullable List<@NotNull @Size(min = 1, max = 100) String> stocks,
    @Schema(
            description =
                "When varieties bloom at the place, so that frost at bloom can be judged.")
        @Size(max = 200)
        @Nullable List<@NotNull @Valid BloomBody> bloom,
    @Schema(
            description =
                "Answer a second time for a climate warmer by so many degrees in every hour.")
        @DecimalMin("-10")
        @DecimalMax("10")
        @Nullable Double warmingC,
    @Schema(
            description =
                "Answer as of this revision of the evidence; the latest when it is left out.")
        @Min(1)
        @Nullable Long revision) {}
