package org.understock.service.planting;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.economics.Costs;
import org.understock.economics.Money;
import org.understock.economics.Prices;
import org.understock.service.place.Places;
import org.understock.service.platform.OneOf;
import org.understock.trait.Refusal;

/** The asker's own prices and costs. There are no usual ones. */
@Schema(
    name = "Money",
    description =
        "Your own prices and costs, all in one currency. There are no usual ones: a cost that is left out is not counted and is named in "
            + "`uncounted`. Taxes, loans, subsidies, rent and rising prices are not reckoned with.")
record MoneyRequest(
    @Schema(description = "Label that is shown with sums; nothing is converted.")
        @Size(min = 1, max = Money.LONGEST_CURRENCY)
        @Nullable String currency,
    @Schema(description = "How far to reckon; without it as far as `years`.")
        @Min(1)
        @Max(Money.MOST_YEARS)
        @Nullable Integer horizonYears,
    @Schema(
            description =
                "By how much a sum is worth less for each year that it comes later; without it 0, and `assumed` says so.")
        @DecimalMin("-50")
        @DecimalMax("100")
        @Nullable Double discountPercent,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Without a price nothing can be reckoned.")
        @Valid
        @Nullable PriceRequest price,
    @Valid @Nullable CostsRequest costs,
    @Schema(
            description =
                "What follows when trees are spent, in the whole year nearest to the end of their life: they are grubbed and nothing follows, or "
                    + "the same are planted again at once.",
            defaultValue = "grub")
        @OneOf(Money.End.class)
        @Nullable String atEndOfLife) {

  @Schema(name = "FruitPrice")
  record PriceRequest(
      @Schema(description = "For a kilogram that is sold as good fruit.")
          @NotNull
          @DecimalMin("0")
          @DecimalMax("1000000000")
          Double perKg,
      @Schema(description = "Other prices from later years on, years rising.") @Size(max = 60)
          @Nullable List<@NotNull @Valid StepRequest> steps,
      @Schema(description = "Share of the crop that is sold as good fruit; without it all of it.")
          @DecimalMin("0")
          @DecimalMax("100")
          @Nullable Double saleablePercent,
      @Schema(
              description =
                  "For a kilogram of the rest, such as for juice; without it the rest brings nothing.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double restPerKg) {}

  @Schema(name = "FruitPriceStep")
  record StepRequest(
      @NotNull @Min(2) @Max(Money.MOST_YEARS) Integer fromYear,
      @NotNull @DecimalMin("0") @DecimalMax("1000000000") Double perKg) {}

  @Schema(name = "PlantingCosts", description = "What is left out is not counted.")
  record CostsRequest(
      @Schema(description = "Per tree bought, the spare ones too.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double treeEach,
      @Schema(description = "Labour to plant, per tree planted.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double plantingPerTree,
      @Schema(description = "Stake or post, put in, per tree that needs one; on wires every tree.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double supportPerTree,
      @Schema(description = "Wires with their posts, per metre of row, where the plan has wires.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double supportPerM,
      @Schema(description = "Per tree guard.") @DecimalMin("0") @DecimalMax("1000000000")
          @Nullable Double guardEach,
      @Schema(description = "Per metre of drip line.") @DecimalMin("0") @DecimalMax("1000000000")
          @Nullable Double irrigationPerM,
      @Schema(description = "To make the ground ready, per hectare of the plot.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double groundPerHa,
      @Schema(description = "Care of a tree, each year that it stands.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double yearlyPerTree,
      @Schema(
              description =
                  "Care of the ground and all else that does not go by the tree, each year.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double yearlyPerHa,
      @Schema(description = "Picking and all that follows, per kg that is borne.")
          @DecimalMin("0")
          @DecimalMax("1000000000")
          @Nullable Double harvestPerKg,
      @Schema(description = "Grubbing at the end.") @DecimalMin("0") @DecimalMax("1000000000")
          @Nullable Double grubbingPerTree,
      @Schema(description = "Grubbing at the end.") @DecimalMin("0") @DecimalMax("1000000000")
          @Nullable Double grubbingPerHa) {

    Costs costs() {
      return new Costs(
          treeEach,
          plantingPerTree,
          supportPerTree,
          supportPerM,
          guardEach,
          irrigationPerM,
          groundPerHa,
          yearlyPerTree,
          yearlyPerHa,
          harvestPerKg,
          grubbingPerTree,
          grubbingPerHa);
    }
  }

  /**
   * @param years horizon where none is given
   * @throws Refusal.Conflict without a price
   */
  Money money(int years) {
    if (price == null) {
      throw new Refusal.Conflict(
          "money.price",
          "without a price no money can be reckoned; give money.price.perKg, what a kilogram of good fruit brings you, "
              + "or leave money out and have kilograms");
    }
    List<Prices.Step> steps =
        price.steps() == null
            ? List.of()
            : price.steps().stream().map(s -> new Prices.Step(s.fromYear(), s.perKg())).toList();
    return new Money(
        currency,
        horizonYears == null ? years : horizonYears,
        discountPercent,
        new Prices(price.perKg(), steps, price.saleablePercent(), price.restPerKg()),
        costs == null ? Costs.NONE : costs.costs(),
        Objects.requireNonNullElse(
            Places.word(Money.End.class, "money.atEndOfLife", atEndOfLife), Money.End.GRUB));
  }
}
