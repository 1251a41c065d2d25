package org.understock.service.place;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.service.platform.OneOf;
import org.understock.site.Goal;

/** The grower's goal as it comes over the wire; the ranges are those of the engine's values. */
@Schema(name = "Goal", description = "What the grower wants.")
public record GoalRequest(
    @Schema(description = "Stands for a documented set of priorities.") @OneOf(Goal.Purpose.class)
        @Nullable String purpose,
    @Schema(description = "Height that the tree must be held at.")
        @DecimalMin("0.5")
        @DecimalMax("20")
        @Nullable Double maxHeightM,
    @Valid @Nullable SpaceRequest spaceM,
    @DecimalMin("1") @DecimalMax("30") @Nullable Double firstCropWithinYears,
    @DecimalMin("1") @DecimalMax("150") @Nullable Double keepForYears,
    @OneOf(Goal.Care.class) @Nullable String care,
    @Schema(description = "What the grower will put up to hold the tree.")
        @OneOf(Goal.Support.class)
        @Nullable String support,
    @Schema(
            description =
                "Criterion to weight, 0 (does not matter) to 5; each overrides the purpose's.")
        @Size(max = 100)
        @Nullable
            Map<@Size(min = 1, max = 100) String, @NotNull @DecimalMin("0") @DecimalMax("5") Double>
            priorities) {

  @Schema(name = "Space", description = "The plot.")
  public record SpaceRequest(
      @Schema(description = "In metres.") @NotNull @DecimalMin("0.5") @DecimalMax("5000")
          Double width,
      @Schema(description = "In metres.") @NotNull @DecimalMin("0.5") @DecimalMax("5000")
          Double length) {}
}
