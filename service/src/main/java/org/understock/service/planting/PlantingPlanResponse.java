package org.understock.service.planting;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A planting plan as it goes over the wire: positions to the centimetre. */
@Schema(name = "PlantingPlan")
record PlantingPlanResponse(
    @Schema(requiredMode = RequiredMode.REQUIRED) long revision,
    @Schema(requiredMode = RequiredMode.REQUIRED) String engineVersion,
    @Schema(requiredMode = RequiredMode.REQUIRED) int rows,
    @Schema(requiredMode = RequiredMode.REQUIRED) double rowSpacingM,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Of the commonest pairing; see `order` for each.")
        double inRowSpacingM,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "At this spacing, headlands and edges not taken off.")
        long treesPerHa,
    @Schema(requiredMode = RequiredMode.REQUIRED) int treeCount,
    @Schema(requiredMode = RequiredMode.REQUIRED) double areaM2,
    @Schema(requiredMode = RequiredMode.REQUIRED) Direction rowDirection,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            allowableValues = {"free-standing", "hedgerow", "against-wall"})
        String form,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Clear width between full-grown crowns of two rows; below 0 where they touch.")
        double clearAlleyM,
    @Schema(requiredMode = RequiredMode.REQUIRED) double boundaryM,
    @Schema(requiredMode = RequiredMode.REQUIRED) double headlandM,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "Row by row.")
        List<PlantedTree> trees,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Ordered> order,
    @Schema(
            description =
                "The farthest that a partner is of a tree that needs one; absent when none needs one, or one has none.")
        @Nullable Double farthestPartnerM,
    @Schema(requiredMode = RequiredMode.REQUIRED) Pollen pollen,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The whole planting's crop.")
        List<PlotYield> yearlyYieldKg,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Seasons at the beginning that more likely than not bear nothing.")
        int yearsWithoutCrop,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Age at which the commonest pairing's trees are spent.")
        Span replaceAfterYears,
    @Schema(description = "Answer to `need`.") @Nullable Enough need,
    @Schema(description = "Answer to `money`.") @Nullable MoneyResponse money,
    @Schema(requiredMode = RequiredMode.REQUIRED) Support support,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<PlanCaution> cautions) {

  @Schema(name = "RowDirection")
  record Direction(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "From the plot's y axis, clockwise.")
          double bearingDeg,
      @Schema(requiredMode = RequiredMode.REQUIRED) String because,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<TriedDirection> tried) {}

  @Schema(name = "TriedDirection")
  record TriedDirection(
      @Schema(requiredMode = RequiredMode.REQUIRED) double bearingDeg,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) int trees) {}

  @Schema(name = "PlantedTree")
  record PlantedTree(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "From 1, left to right seen along the rows.")
          int row,
      @Schema(requiredMode = RequiredMode.REQUIRED) int position,
      @Schema(requiredMode = RequiredMode.REQUIRED) double xM,
      @Schema(requiredMode = RequiredMode.REQUIRED) double yM,
      @Schema(requiredMode = RequiredMode.REQUIRED) String stock,
      @Schema(requiredMode = RequiredMode.REQUIRED) String variety,
      @Schema(
              description =
                  "How far the farthest partner is that it needs; absent when it needs none, or has none.")
          @Nullable Double partnerM) {}

  @Schema(name = "OrderedTrees")
  record Ordered(
      @Schema(requiredMode = RequiredMode.REQUIRED) String stock,
      @Schema(requiredMode = RequiredMode.REQUIRED) String variety,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Name of the pairing.")
          String name,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Trees that are planted.")
          int count,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "To order beyond those.")
          int spare,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Whether it stands there as a pollen partner of others.")
          boolean partner,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "That it asks for by itself.")
          double inRowSpacingM) {}

  @Schema(name = "PlanPollen")
  record Pollen(
      @Schema(requiredMode = RequiredMode.REQUIRED) double beeDistanceM,
      @Schema(
              description =
                  "Partner trees that the distance alone asks for, as found; absent when none were to be placed.")
          @Nullable Integer fewestPartners,
      @Schema(
              description =
                  "No planting does with fewer; the two are equal when the fewest is proved.")
          @Nullable Integer atLeastPartners,
      @Schema(requiredMode = RequiredMode.REQUIRED) String arrangement,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Number of trees whose partner is too far or missing.")
          int failingCount,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "The first hundred of them.")
          List<TreePlace> failing) {}

  @Schema(name = "TreePlace")
  record TreePlace(
      @Schema(requiredMode = RequiredMode.REQUIRED) int row,
      @Schema(requiredMode = RequiredMode.REQUIRED) int position) {}

  @Schema(name = "PlotYield", description = "10th, 50th and 90th percentile of the year by itself.")
  record PlotYield(
      @Schema(requiredMode = RequiredMode.REQUIRED) int year,
      @Schema(requiredMode = RequiredMode.REQUIRED) double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) double high) {}

  @Schema(name = "SpanOfYears", description = "10th, 50th and 90th percentile.")
  record Span(
      @Schema(requiredMode = RequiredMode.REQUIRED) long low,
      @Schema(requiredMode = RequiredMode.REQUIRED) long likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) long high) {}

  @Schema(name = "EnoughTrees")
  record Enough(
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "What was asked for.")
          double kgPerYear,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Trees, mixed as planned, that more likely than not bear it.")
          int trees,
      @Schema(
              description =
                  "That bear it with nine chances in ten; absent where one in ten bears nothing yet.")
          @Nullable Integer safeTrees,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Whether the plan holds the first number.")
          boolean planHolds,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What the plan as it is bears in that year.")
          PlotYield planBearsKg,
      @Schema(description = "Boxes that it serves with that, where the need was given in boxes.")
          @Nullable Served planServes) {}

  @Schema(name = "BoxesServed", description = "10th, 50th and 90th percentile.")
  record Served(
      @Schema(requiredMode = RequiredMode.REQUIRED) long low,
      @Schema(requiredMode = RequiredMode.REQUIRED) long likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) long high) {}

  @Schema(name = "PlanSupport", description = "What to put up.")
  record Support(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "That come out when the tree stands.")
          int stakes,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "For single trees, or along wires.")
          int posts,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Wires one above another.")
          int wires,
      @Schema(requiredMode = RequiredMode.REQUIRED) long wireM,
      @Schema(requiredMode = RequiredMode.REQUIRED) int guards,
      @Schema(requiredMode = RequiredMode.REQUIRED) int ties,
      @Schema(requiredMode = RequiredMode.REQUIRED) long dripLineM,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "How these were reckoned.")
          List<String> basis) {}

  @Schema(name = "PlanCaution")
  record PlanCaution(
      @Schema(requiredMode = RequiredMode.REQUIRED) String code,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}
}
