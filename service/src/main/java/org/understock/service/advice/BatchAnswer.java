package org.understock.service.advice;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import org.jspecify.annotations.Nullable;
import org.understock.service.problem.Problem;

/** What is answered to one line of a batch. */
@Schema(
    name = "BatchAnswer",
    description = "The answer to one line: `advice`, or the `problem` that stands in its way.")
record BatchAnswer(
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Number of the line that is answered, from 1; empty lines count.")
        long line,
    @Schema(description = "The request's `id`, where the line could be read that far.")
        @Nullable String id,
    @Nullable AdviceResponse advice,
    @Schema(
            description =
                "What `/v1/advice` would have answered to this line; its `status` is that of the line, the batch goes on.")
        @Nullable Problem problem) {}
