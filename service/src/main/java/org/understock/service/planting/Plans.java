package org.understock.service.planting;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Adviser;
import org.understock.advice.Units;
import org.understock.evidence.TraitBook;
import org.understock.growth.LogNormal;
import org.understock.growth.YearYield;
import org.understock.planting.Account;
import org.understock.planting.Layout;
import org.understock.planting.PlanText;
import org.understock.planting.PlantingPlan;
import org.understock.planting.PlantingQuestion;
import org.understock.planting.Plot;
import org.understock.planting.Point;
import org.understock.planting.PollenRule;
import org.understock.planting.Years;
import org.understock.service.place.GoalRequest;
import org.understock.service.place.Places;
import org.understock.service.reading.Rounding;
import org.understock.service.store.Snapshot;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

/** Turns a checked request into the engine's question, and its plan into the answer. */
final class Plans {
  private static final int USUAL_YEARS = 20;
  private static final int MOST_FAILING = 100;

  private Plans() {}

  static PlantingQuestion question(PlantingPlanRequest request, TraitBook book) {
    List<PlantingQuestion.Wanted> trees =
        request.trees().stream()
            .map(t -> new PlantingQuestion.Wanted(t.stock(), t.variety(), t.share()))
            .toList();
    return new PlantingQuestion(
        plot(request.plot()),
        layout(request.layout()),
        trees,
        Places.site(request.site(), book),
        Places.goal(request.goal()),
        pollen(request.pollen()),
        Objects.requireNonNullElse(request.sparePercent(), PlantingQuestion.USUAL_SPARE_PERCENT));
  }

  static Plot plot(PlantingPlanRequest.PlotRequest plot) {
    List<List<Point>> holes =
        plot.holes() == null ? List.of() : plot.holes().stream().map(Plans::ring).toList();
    PlantingPlanRequest.@Nullable SlopeRequest slope = plot.slope();
    return new Plot(
        outline(plot),
        holes,
        plot.boundaryM(),
        plot.headlandM(),
        slope == null ? null : new Plot.Slope(slope.percent(), slope.downhillDeg()),
        Objects.requireNonNullElse(plot.yAxisBearingDeg(), 0.0));
  }

  private static List<Point> outline(PlantingPlanRequest.PlotRequest plot) {
    if (plot.outline() != null) {
      if (plot.widthM() != null || plot.lengthM() != null) {
        throw new Refusal.Conflict(
            "plot", "give plot.outline, or plot.widthM and plot.lengthM, not both");
      }
      return ring(plot.outline());
    }
    if (plot.widthM() == null || plot.lengthM() == null) {
      throw new Refusal.Conflict(
          "plot",
          "give plot.widthM and plot.lengthM of a rectangle, or plot.outline of any other plot");
    }
    return Plot.corners(plot.widthM(), plot.lengthM());
  }

  private static List<Point> ring(List<PlantingPlanRequest.PointRequest> ring) {
    return ring.stream().map(p -> new Point(p.xM(), p.yM())).toList();
  }

  static Layout layout(PlantingPlanRequest.@Nullable LayoutRequest layout) {
    if (layout == null) return Layout.USUAL;
    return new Layout(
        Places.word(Layout.Form.class, "layout.form", layout.form()),
        Places.word(Layout.Access.class, "layout.access", layout.access()),
        layout.rowDirectionDeg(),
        layout.rowSpacingM(),
        layout.inRowSpacingM(),
        layout.mostTrees(),
        Places.word(Layout.Side.class, "layout.wallSide", layout.wallSide()));
  }

  static PollenRule pollen(PlantingPlanRequest.@Nullable PollenRequest pollen) {
    if (pollen == null) return PollenRule.USUAL;
    return new PollenRule(
        Objects.requireNonNullElse(pollen.beeDistanceM(), PollenRule.USUAL_BEE_DISTANCE_M),
        pollen.leastPartnerShare());
  }

  static PlantingPlanResponse answer(
      PlantingPlan plan, PlantingPlanRequest request, Snapshot snapshot, Words words) {
    Units units = units(request);
    Years years = Years.of(plan);
    LogNormal life = plan.pairings().get(commonest(plan)).expectations().lifeYears();
    return new PlantingPlanResponse(
        snapshot.revision().number(),
        Adviser.ENGINE_VERSION,
        plan.rows(),
        cm(plan.rowM()),
        cm(plan.inRowM()),
        Math.round(plan.treesPerHa()),
        plan.trees().size(),
        cm(plan.plot().areaM2()),
        new PlantingPlanResponse.Direction(
            cm(plan.rowBearingDeg()),
            plan.direction().in(words, units),
            plan.tried().stream()
                .map(
                    t ->
                        new PlantingPlanResponse.TriedDirection(
                            cm(t.rowBearingDeg()), t.why().in(words, units), t.trees()))
                .toList()),
        Objects.requireNonNull(plan.layout().form()).id(),
        cm(plan.clearM()),
        cm(plan.boundaryM()),
        cm(plan.headlandM()),
        trees(plan),
        order(plan, words, units),
        plan.farthestPartnerM() == null ? null : Double.valueOf(cm(plan.farthestPartnerM())),
        pollen(plan.partners(), words, units),
        years.yearly(years(request.years(), request.goal())).stream().map(Plans::yield).toList(),
        years.withoutCrop(),
        new PlantingPlanResponse.Span(
            Math.round(life.p10()), Math.round(life.median()), Math.round(life.p90())),
        need(years, plan, request.need()),
        request.money() == null
            ? null
            : MoneyResponse.of(
                Account.of(
                    plan, years, request.money().money(years(request.years(), request.goal())))),
        support(plan.materials(), words, units),
        plan.cautions().stream()
            .map(c -> new PlantingPlanResponse.PlanCaution(c.code(), c.text().in(words, units)))
            .toList());
  }

  /** Units of the texts and of the drawing. */
  static Units units(PlantingPlanRequest request) {
    return Objects.requireNonNullElse(
        Places.word(Units.class, "units", request.units()), Units.METRIC);
  }

  /** As far as asked, else as long as the planting is to be kept, else 20 years. */
  static int years(@Nullable Integer years, @Nullable GoalRequest goal) {
    if (years != null) return years;
    Double keep = goal == null ? null : goal.keepForYears();
    return keep == null ? USUAL_YEARS : (int) Math.min(Years.MOST, Math.ceil(keep));
  }

  private static int commonest(PlantingPlan plan) {
    int best = 0;
    for (int k = 1; k < plan.order().size(); k++)
      if (plan.order().get(k).count() > plan.order().get(best).count()) best = k;
    return best;
  }

  private static List<PlantingPlanResponse.PlantedTree> trees(PlantingPlan plan) {
    List<PlantingPlanResponse.PlantedTree> trees = new ArrayList<>(plan.trees().size());
    for (PlantingPlan.Tree tree : plan.trees()) {
      var pairing = plan.pairings().get(tree.pairing());
      trees.add(
          new PlantingPlanResponse.PlantedTree(
              tree.row(),
              tree.position(),
              cm(tree.place().xM()),
              cm(tree.place().yM()),
              pairing.stock().id(),
              pairing.variety().id(),
              tree.partnerM() == null ? null : Double.valueOf(cm(tree.partnerM()))));
    }
    return trees;
  }

  private static List<PlantingPlanResponse.Ordered> order(
      PlantingPlan plan, Words words, Units units) {
    return plan.order().stream()
        .map(
            o -> {
              var pairing = plan.pairings().get(o.pairing());
              return new PlantingPlanResponse.Ordered(
                  pairing.stock().id(),
                  pairing.variety().id(),
                  PlanText.named(pairing).in(words, units),
                  o.count(),
                  o.spare(),
                  o.partner(),
                  cm(o.inRowM()));
            })
        .toList();
  }

  private static PlantingPlanResponse.Pollen pollen(
      PlantingPlan.Partners partners, Words words, Units units) {
    return new PlantingPlanResponse.Pollen(
        cm(partners.beeDistanceM()),
        partners.fewest(),
        partners.bound(),
        partners.arrangement().in(words, units),
        partners.failing().size(),
        partners.failing().stream()
            .limit(MOST_FAILING)
            .map(p -> new PlantingPlanResponse.TreePlace(p.row(), p.position()))
            .toList());
  }

  private static PlantingPlanResponse.PlotYield yield(YearYield y) {
    return new PlantingPlanResponse.PlotYield(y.year(), kg(y.low()), kg(y.likely()), kg(y.high()));
  }

  private static PlantingPlanResponse.@Nullable Enough need(
      Years years, PlantingPlan plan, PlantingPlanRequest.@Nullable NeedRequest need) {
    if (need == null) return null;
    double kg = need.kg();
    Years.Enough enough = years.enough(kg, need.fromYear());
    YearYield year = years.yearly(need.fromYear()).get(need.fromYear() - 1);
    PlantingPlanRequest.@Nullable BoxesRequest boxes = need.boxes();
    return new PlantingPlanResponse.Enough(
        kg(kg),
        enough.trees(),
        enough.safeTrees(),
        plan.trees().size() >= enough.trees(),
        Plans.yield(year),
        boxes == null
            ? null
            : new PlantingPlanResponse.Served(
                (long) Math.floor(year.low() / boxes.kgPerYearEach()),
                (long) Math.floor(year.likely() / boxes.kgPerYearEach()),
                (long) Math.floor(year.high() / boxes.kgPerYearEach())));
  }

  private static PlantingPlanResponse.Support support(
      PlantingPlan.Materials m, Words words, Units units) {
    return new PlantingPlanResponse.Support(
        m.stakesForYears(),
        m.posts(),
        m.wires(),
        Math.round(m.wireM()),
        m.guards(),
        m.ties(),
        Math.round(m.dripLineM()),
        m.basis().stream().map(text -> text.in(words, units)).toList());
  }

  static double cm(double m) {
    return Math.round(m * 100) / 100.0;
  }

  /** Whole kilograms from ten upward, tenths below. */
  static double kg(double x) {
    return Rounding.kg(x);
  }
}
