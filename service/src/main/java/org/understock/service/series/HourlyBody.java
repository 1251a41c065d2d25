package org.understock.service.series;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.climate.TemperatureSeries;

/**
 * A logger's readings as they come over the wire; the values are checked in {@link SeriesOf}, not
 * by constraints.
 */
@Schema(
    name = "HourlyTemperatures",
    description =
        "A logger's readings at a steady step, in local time without daylight saving; null where one is missing.")
public record HourlyBody(
    @Schema(
            description = "Time of the first reading, such as 2024-10-01T00:00.",
            requiredMode = Schema.RequiredMode.REQUIRED)
        @NotNull
        @Size(min = 1, max = 40)
        String start,
    @Schema(
            description =
                "Minutes from one reading to the next. Readings within an hour are averaged; between readings up to three hours apart the"
                    + " hours lie on a straight line.",
            defaultValue = "60")
        @Min(1)
        @Max(TemperatureSeries.LONGEST_STEP_MINUTES)
        @Nullable Integer stepMinutes,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) @NotNull List<@Nullable Double> valuesC) {}
