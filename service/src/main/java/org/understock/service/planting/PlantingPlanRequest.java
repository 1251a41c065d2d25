package org.understock.service.planting;

import io.swagger.v3.oas.annotations.media.Schema;
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
import org.understock.advice.Units;
import org.understock.planting.Layout;
import org.understock.planting.PlantingQuestion;
import org.understock.planting.Plot;
import org.understock.planting.Years;
import org.understock.service.place.GoalRequest;
import org.understock.service.place.SiteRequest;
import org.understock.service.platform.OneOf;
import org.understock.trait.Refusal;

/**
 * What is to be planted, and where, as it comes over the wire; the ranges are those of the engine's
 * values.
 */
@Schema(
    name = "PlantingPlanRequest",
    description = "A plot and the pairings to plant on it. All but those may be left out.")
record PlantingPlanRequest(
    @NotNull @Valid PlotRequest plot,
    @Schema(
            description =
                "Pairings with their shares. Those without a share are pollen partners of the others and get as few trees as do it; "
                    + "where no pairing has a share, all have the same.")
        @NotNull
        @Size(min = 1, max = PlantingQuestion.MOST_PAIRINGS)
        List<@NotNull @Valid TreesRequest> trees,
    @Valid @Nullable SiteRequest site,
    @Valid @Nullable GoalRequest goal,
    @Valid @Nullable LayoutRequest layout,
    @Valid @Nullable PollenRequest pollen,
    @Schema(description = "Trees to order beyond those planted.", defaultValue = "4")
        @DecimalMin("0")
        @DecimalMax("50")
        @Nullable Double sparePercent,
    @Schema(
            description =
                "Years of `yearlyYieldKg`; without it as many as the planting is to be kept, or 20.")
        @Min(1)
        @Max(Years.MOST)
        @Nullable Integer years,
    @Valid @Nullable NeedRequest need,
    @Schema(description = "Prices and costs, to have what the planting costs and brings.") @Valid
        @Nullable MoneyRequest money,
    @Schema(
            description =
                "Units of the texts and of the drawing; fields are SI always, and the sheets tell both.",
            defaultValue = "metric")
        @OneOf(Units.class)
        @Nullable String units,
    @Schema(
            description =
                "Answer as of this revision of the evidence; the latest when it is left out.")
        @Min(1)
        @Nullable Long revision) {

  @Schema(
      name = "Plot",
      description =
          "The ground: `widthM` and `lengthM` of a rectangle, or the `outline` of any other plot.")
  record PlotRequest(
      @Schema(description = "Along x.") @DecimalMin("0.5") @DecimalMax("5000")
          @Nullable Double widthM,
      @Schema(description = "Along y.") @DecimalMin("0.5") @DecimalMax("5000")
          @Nullable Double lengthM,
      @Schema(
              description =
                  "Corners in order, the first not repeated. Not together with widthM and lengthM.")
          @Size(min = 3, max = Plot.MOST_CORNERS)
          @Nullable List<@NotNull @Valid PointRequest> outline,
      @Schema(description = "Outlines of what is not planted, such as a shed.")
          @Size(max = Plot.MOST_HOLES)
          @Nullable
              List<
                  @NotNull @Size(min = 3, max = Plot.MOST_CORNERS) List<
                      @NotNull @Valid PointRequest>>
              holes,
      @Schema(
              description =
                  "Least distance of a trunk from the outline; without it half a crown's width. Local rules may ask for more.")
          @DecimalMin("0")
          @DecimalMax("50")
          @Nullable Double boundaryM,
      @Schema(
              description =
                  "Free length at both ends of a row; without it what `layout.access` needs to turn.")
          @DecimalMin("0")
          @DecimalMax("50")
          @Nullable Double headlandM,
      @Valid @Nullable SlopeRequest slope,
      @Schema(
              description = "Compass bearing of the plot's y axis: 0 when y points north.",
              defaultValue = "0")
          @DecimalMin("0")
          @DecimalMax("360")
          @Nullable Double yAxisBearingDeg) {}

  @Schema(name = "PlotPoint")
  record PointRequest(
      @NotNull @DecimalMin("-5000") @DecimalMax("5000") Double xM,
      @NotNull @DecimalMin("-5000") @DecimalMax("5000") Double yM) {}

  @Schema(
      name = "Slope",
      description =
          "How the ground falls. From 5 % on, rows follow the contour unless a direction is given.")
  record SlopeRequest(
      @NotNull @DecimalMin("0") @DecimalMax("100") Double percent,
      @Schema(description = "Bearing in which it falls, from the plot's y axis clockwise.")
          @NotNull
          @DecimalMin("0")
          @DecimalMax("360")
          Double downhillDeg) {}

  @Schema(name = "TreesToPlant")
  record TreesRequest(
      @Schema(description = "Id or usual spelling.") @NotNull @Size(min = 1, max = 100)
          String stock,
      @Schema(description = "Id or usual spelling.") @NotNull @Size(min = 1, max = 100)
          String variety,
      @Schema(description = "Share of the trees that are no partners; the shares add up to 1.")
          @DecimalMin(value = "0", inclusive = false)
          @DecimalMax("1")
          @Nullable Double share) {}

  @Schema(
      name = "Layout",
      description =
          "How to lay the planting out; what is left out is chosen, and the answer says how.")
  record LayoutRequest(
      @Schema(
              description =
                  "Without it a hedgerow for a market orchard on a trellis, else free-standing trees.")
          @OneOf(Layout.Form.class)
          @Nullable String form,
      @Schema(
              description =
                  "What has to pass between the rows; without it alleys as are usual in the crop.")
          @OneOf(Layout.Access.class)
          @Nullable String access,
      @Schema(description = "Bearing of the rows from the plot's y axis, clockwise.")
          @DecimalMin("0")
          @DecimalMax("360")
          @Nullable Double rowDirectionDeg,
      @DecimalMin("0.5") @DecimalMax("20") @Nullable Double rowSpacingM,
      @DecimalMin("0.3") @DecimalMax("20") @Nullable Double inRowSpacingM,
      @Schema(description = "Plant no more than this many.") @Min(1) @Max(Layout.MOST_TREES)
          @Nullable Integer mostTrees,
      @Schema(
              description =
                  "Where the wall stands, for the form `against-wall`; without it the side that faces the sun.")
          @OneOf(Layout.Side.class)
          @Nullable String wallSide) {}

  @Schema(name = "PollenRule")
  record PollenRequest(
      @Schema(
              description =
                  "Farthest useful partner. With the partner farther than 30 m away pollination may be poor (wsu-pollination).",
              defaultValue = "30")
          @DecimalMin("1")
          @DecimalMax("500")
          @Nullable Double beeDistanceM,
      @Schema(
              description =
                  "Least share of partners where pairings without a share are placed; without it what growers plant. 0 asks for the "
                      + "fewest that do it.")
          @DecimalMin("0")
          @DecimalMax("0.5")
          @Nullable Double leastPartnerShare) {}

  @Schema(
      name = "FruitNeed",
      description =
          "What the planting is to bear, as `kgPerYear` or as `boxes`: asks how many trees do, and how much the plan bears.")
  record NeedRequest(
      @DecimalMin("0.1") @DecimalMax("10000000") @Nullable Double kgPerYear,
      @Valid @Nullable BoxesRequest boxes,
      @Schema(description = "From which season on, 1 = that of planting.")
          @NotNull
          @Min(1)
          @Max(Years.MOST)
          Integer fromYear) {

    /**
     * @throws Refusal.Conflict unless kilograms or boxes are given, or when they are too many
     */
    double kg() {
      if ((kgPerYear == null) == (boxes == null))
        throw new Refusal.Conflict("need", "give need.kgPerYear or need.boxes, one of them");
      if (boxes == null) return Objects.requireNonNull(kgPerYear);
      double kg = boxes.count() * boxes.kgPerYearEach();
      if (kg < 0.1 || kg > 1e7)
        throw new Refusal.OutOfRange(
            "need.boxes", kg + " kg a year", "between 0.1 and 10000000 kg a year");
      return kg;
    }
  }

  @Schema(
      name = "FruitBoxes",
      description =
          "Boxes of a box scheme, or households, by your own figures of what each takes of this fruit.")
  record BoxesRequest(
      @Schema(description = "Boxes or households that are to be served.")
          @NotNull
          @Min(1)
          @Max(1000000)
          Integer count,
      @Schema(description = "Of this fruit in one box, each time.")
          @NotNull
          @DecimalMin("0.01")
          @DecimalMax("10000")
          Double kgEach,
      @Schema(description = "How many times a year.", defaultValue = "1") @Min(1) @Max(366)
          @Nullable Integer timesPerYear) {

    double kgPerYearEach() {
      return kgEach * (timesPerYear == null ? 1 : timesPerYear);
    }
  }
}
