package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.trait.Refusal;

/** Where and when it was measured; all parts may be missing. */
@Schema(
    name = "RecordContext",
    description = "Where and when it was measured; all parts may be missing.")
public record ContextBody(
    @Size(min = 1, max = 200) @Nullable String trial,
    @Size(min = 1, max = 200)
        @Schema(description = "Place as printed; `all-sites-mean` for a mean over sites.")
        @Nullable String site,
    @Size(min = 1, max = 200) @Schema(description = "Variety as printed.") @Nullable String scion,
    @Nullable Integer plantedYear,
    @Nullable Integer measuredYear,
    @Schema(description = "Number of trees behind the mean.") @Nullable Integer trees,
    @Valid @Nullable SpreadBody spread,
    @Size(min = 1, max = 200) @Schema(description = "For compatibility: the stock to put between.")
        @Nullable String interstem,
    @Schema(description = "Age of the trees at the measurement.") @Nullable Integer ageYears,
    @Size(min = 1, max = 200)
        @Schema(description = "For days counted from another variety: that variety.")
        @Nullable String relativeTo) {

  /** Spread of a mean as printed. */
  @Schema(
      name = "RecordSpread",
      description = "Spread of the mean as printed, in the trait's unit.")
  public record SpreadBody(
      @NotNull
          @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"SE", "SD", "HSD", "LSD"})
          @Nullable String kind,
      @NotNull @Schema(requiredMode = Schema.RequiredMode.REQUIRED) @Nullable Double value) {}

  /** The context as a body; null when nothing is known. */
  public static @Nullable ContextBody of(Context c) {
    if (c.equals(Context.NONE)) return null;
    SpreadBody spread =
        c.spread() == null ? null : new SpreadBody(c.spread().kind().name(), c.spread().value());
    return new ContextBody(
        c.trial(),
        c.site(),
        c.scion(),
        c.plantedYear(),
        c.measuredYear(),
        c.trees(),
        spread,
        c.interstem(),
        c.ageYears(),
        c.relativeTo());
  }

  /**
   * @throws Refusal when the kind of spread is not known
   */
  Context context() {
    Context.Spread printed =
        spread == null || spread.kind() == null || spread.value() == null
            ? null
            : new Context.Spread(
                Words.constant("context.spread.kind", spread.kind(), Context.Spread.Kind.class),
                spread.value());
    return new Context(
        trial,
        site,
        scion,
        plantedYear,
        measuredYear,
        trees,
        printed,
        interstem,
        ageYears,
        relativeTo);
  }
}
