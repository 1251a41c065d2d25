package org.understock.service.planting;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Adviser;
import org.understock.advice.Units;
import org.understock.economics.Spread;
import org.understock.growth.LogNormal;
import org.understock.planting.Comparison;
import org.understock.planting.PlantingPlan;
import org.understock.service.store.Snapshot;
import org.understock.wording.Words;

/** Plantings held against each other, as it goes over the wire. */
@Schema(name = "PlantingComparison")
record PlantingComparisonResponse(
    @Schema(requiredMode = RequiredMode.REQUIRED) long revision,
    @Schema(requiredMode = RequiredMode.REQUIRED) String engineVersion,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The whole, to be read aloud.")
        String text,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "By what they are ranked.",
            allowableValues = {"annuity", "kilograms"})
        String rankedBy,
    @Schema(requiredMode = RequiredMode.REQUIRED) int years,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The best first.")
        List<Planting> plantings,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "How the first and each of the others part.")
        List<Parting> partings,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Pairings that cannot be planted here.")
        List<NotPlanted> notPlanted,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "That hold for every planting.")
        List<PlantingPlanResponse.PlanCaution> cautions,
    @Schema(requiredMode = RequiredMode.REQUIRED) String notice) {

  private static final String NOTICE_OF_KG =
      "Yields have wide margins: hail, frost and care can undo any plan. A comparison is where a conversation begins; the local extension service "
          + "knows how these pairings do nearby.";

  @Schema(name = "ComparedPlanting")
  record Planting(
      @Schema(requiredMode = RequiredMode.REQUIRED) int rank,
      @Schema(requiredMode = RequiredMode.REQUIRED) String stock,
      @Schema(requiredMode = RequiredMode.REQUIRED) String variety,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Name of the pairing.")
          String name,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "To be read aloud.") String text,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "0 to 1 that it is the best of those compared.")
          double chanceBest,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Pollen partners counted in.")
          int treeCount,
      @Schema(requiredMode = RequiredMode.REQUIRED) int partnerCount,
      @Schema(requiredMode = RequiredMode.REQUIRED) long treesPerHa,
      @Schema(requiredMode = RequiredMode.REQUIRED) double rowSpacingM,
      @Schema(requiredMode = RequiredMode.REQUIRED) double inRowSpacingM,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Seasons at the beginning that more likely than not bear nothing.")
          int yearsWithoutCrop,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Age at which trees are spent.")
          PlantingPlanResponse.Span replaceAfterYears,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Until the trees are spent.")
          List<PlantingPlanResponse.PlotYield> yearlyYieldKg,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "In all the years looked at.")
          MoneyResponse.Sum totalKg,
      @Nullable MoneyResponse money,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "That do not hold for all.")
          List<PlantingPlanResponse.PlanCaution> cautions) {}

  @Schema(name = "Parting")
  record Parting(
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Rank of the first.") int first,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Rank of the other.") int other,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Years at whose end the cumulative line that was behind is ahead; empty where one leads throughout.")
          List<Integer> crossingYears,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "0 to 1 that the first has brought, or borne, more in all at the end.")
          double chanceFirstAhead,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  @Schema(name = "NotPlanted")
  record NotPlanted(
      @Schema(requiredMode = RequiredMode.REQUIRED) String name,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  static PlantingComparisonResponse of(Comparison comparison, Snapshot snapshot) {
    return new PlantingComparisonResponse(
        snapshot.revision().number(),
        Adviser.ENGINE_VERSION,
        comparison.text(),
        comparison.byMoney() ? "annuity" : "kilograms",
        comparison.years(),
        comparison.plantings().stream().map(PlantingComparisonResponse::planting).toList(),
        comparison.partings().stream()
            .map(
                p ->
                    new Parting(
                        p.first(),
                        p.other(),
                        p.years(),
                        MoneyResponse.chance(p.chanceFirst()),
                        p.text()))
            .toList(),
        comparison.notPlanted().stream().map(n -> new NotPlanted(n.name(), n.text())).toList(),
        cautions(comparison.cautions()),
        comparison.byMoney() ? MoneyResponse.NOTICE : NOTICE_OF_KG);
  }

  private static Planting planting(Comparison.Compared compared) {
    PlantingPlan plan = compared.plan();
    LogNormal life = compared.pairing().expectations().lifeYears();
    return new Planting(
        compared.rank(),
        compared.pairing().stock().id(),
        compared.pairing().variety().id(),
        compared.pairing().names(),
        compared.text(),
        MoneyResponse.chance(compared.chanceBest()),
        plan.trees().size(),
        plan.trees().size() - plan.order().get(0).count(),
        Math.round(plan.treesPerHa()),
        Plans.cm(plan.rowM()),
        Plans.cm(plan.inRowM()),
        compared.withoutCrop(),
        new PlantingPlanResponse.Span(
            Math.round(life.p10()), Math.round(life.median()), Math.round(life.p90())),
        yields(compared.kg()),
        MoneyResponse.Sum.of(compared.totalKg()),
        compared.account() == null ? null : MoneyResponse.of(compared.account()),
        cautions(compared.cautions()));
  }

  private static List<PlantingPlanResponse.PlotYield> yields(List<Spread> kg) {
    List<PlantingPlanResponse.PlotYield> yields = new ArrayList<>(kg.size());
    for (int k = 0; k < kg.size(); k++) {
      yields.add(
          new PlantingPlanResponse.PlotYield(
              k + 1,
              Plans.kg(value(kg.get(k).low())),
              Plans.kg(value(kg.get(k).likely())),
              Plans.kg(value(kg.get(k).high()))));
    }
    return yields;
  }

  private static double value(@Nullable Double x) {
    return x == null ? 0 : x;
  }

  private static List<PlantingPlanResponse.PlanCaution> cautions(
      List<PlantingPlan.Caution> cautions) {
    return cautions.stream()
        .map(
            c ->
                new PlantingPlanResponse.PlanCaution(
                    c.code(), c.text().in(Words.ENGLISH, Units.METRIC)))
        .toList();
  }
}
