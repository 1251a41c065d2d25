package org.understock.service.series;

import io.swagger.v3.oas.annotations.media.Schema;
import org.jspecify.annotations.Nullable;

/**
 * A day as it comes over the wire; the values are checked in {@link SeriesOf}, not by constraints.
 */
@Schema(
    name = "DailyExtremes",
    description = "A day; an extreme that was not measured is left out.")
public record DayBody(
    @Schema(format = "date", requiredMode = Schema.RequiredMode.REQUIRED) @Nullable String date,
    @Nullable Double minC,
    @Nullable Double maxC) {}
