package org.understock.service.platform;

import io.swagger.v3.oas.annotations.media.Schema;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One page of a list.
 *
 * @param total number of items over all pages; absent where counting would cost a walk over
 *     everything
 * @param next cursor of the next page; absent on the last one
 */
public record Page<T>(
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<T> items,
    @Schema(description = "Number of items over all pages, where it is known.")
        @Nullable Integer total,
    @Schema(description = "Give it back as `cursor` to get the next page; absent on the last one.")
        @Nullable String next) {}
