package org.understock.planting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.advice.Adviser;
import org.understock.advice.Units;
import org.understock.evidence.CompiledTraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.planting.PlantingPlan.Tree;
import org.understock.planting.PlantingQuestion.Wanted;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

/** Plans over the starter evidence: what whoever plants by them relies on. */
class PlannerTest {
  private static final Adviser ADVISER =
      Adviser.of(CompiledTraitBook.compile(1, StarterEvidence.read().evidence()));
  private static final Planner PLANNER = Planner.of(ADVISER);
  private static final Wanted FUJI = new Wanted("g-969", "fuji", 0.85);
  private static final Wanted GALA = new Wanted("g-969", "gala", 0.15);

  @Test
  void shares_become_whole_trees_spaced_as_advice_would_space_them() {
    PlantingPlan plan = plan(Plot.rectangle(20, 40, 3.0), Layout.USUAL, FUJI, GALA);
    int n = plan.trees().size();
    var fuji =
        ADVISER
            .pairing("x", Crop.APPLE, "g-969", "fuji", Site.UNKNOWN, Goal.UNKNOWN)
            .expectations();
    assertThat(plan.inRowM()).isGreaterThanOrEqualTo(fuji.inRowM());
    assertThat(plan.rowM()).isGreaterThanOrEqualTo(fuji.rowM());
    assertThat(plan.treesPerHa()).isCloseTo(10_000 / (plan.rowM() * plan.inRowM()), within(1e-9));
    assertThat(plan.order().get(0).count()).isCloseTo((int) Math.round(0.85 * n), within(1));
    assertThat(plan.order().stream().mapToInt(PlantingPlan.Ordered::count).sum()).isEqualTo(n);
    assertThat(plan.order())
        .allSatisfy(o -> assertThat(o.spare()).isEqualTo((int) Math.ceil(o.count() * 0.04)));
    assertThat(plan.farthestPartnerM()).isLessThanOrEqualTo(30);
    assertThat(plan.trees()).allSatisfy(t -> assertThat(t.place().yM()).isBetween(2.99, 37.01));
    assertLaws(plan);
  }

  @ParameterizedTest
  @ValueSource(doubles = {8, 15, 30, 60})
  void every_tree_has_its_partner_in_reach_or_is_named(double beeDistanceM) {
    PlantingPlan plan =
        PLANNER.plan(
            new PlantingQuestion(
                Plot.rectangle(60, 90, null),
                Layout.USUAL,
                List.of(new Wanted("m-7", "fuji", 1.0), new Wanted("m-7", "gala", null)),
                Site.UNKNOWN,
                Goal.UNKNOWN,
                new PollenRule(beeDistanceM, 0.0),
                4));
    assertThat(plan.partners().failing()).isEmpty();
    assertThat(plan.order().get(1).count()).isEqualTo(plan.partners().fewest());
    assertThat(plan.partners().bound()).isBetween(1, plan.partners().fewest());
    assertLaws(plan);
  }

  @Test
  void partners_come_to_the_usual_share_where_distance_alone_asks_for_fewer() {
    PlantingPlan plan =
        plan(
            Plot.rectangle(60, 90, null),
            Layout.USUAL,
            new Wanted("m-7", "fuji", 1.0),
            new Wanted("m-7", "gala", null));
    assertThat(plan.order().get(1).count())
        .isEqualTo((int) Math.ceil(0.05 * plan.trees().size()))
        .isGreaterThan(plan.partners().fewest());
    assertThat(plan.cautions()).extracting(PlantingPlan.Caution::code).contains("partner-number");
  }

  @Test
  void a_triploid_has_two_others_in_reach_and_they_have_each_other() {
    Wanted bramley = new Wanted("m-26", "bramley-s-seedling", 1.0);
    PlantingPlan plan =
        PLANNER.plan(
            new PlantingQuestion(
                Plot.rectangle(80, 80, null),
                Layout.USUAL,
                List.of(
                    bramley,
                    new Wanted("m-26", "golden-delicious", null),
                    new Wanted("m-26", "gala", null)),
                Site.UNKNOWN,
                Goal.UNKNOWN,
                new PollenRule(20, 0.0),
                4));
    assertThat(ADVISER.pollination(Crop.APPLE).partnerNeed("bramley-s-seedling").need().id())
        .isEqualTo("needs-two");
    assertThat(plan.partners().failing()).isEmpty();
    for (Tree tree : plan.trees()) {
      Set<Integer> near = new HashSet<>();
      for (Tree other : plan.trees())
        if (other != tree && other.place().to(tree.place()) <= 20 + 1e-6) near.add(other.pairing());
      if (tree.pairing() == 0) assertThat(near).contains(1, 2);
      else assertThat(near).contains(3 - tree.pairing());
    }
    assertThat(plan.partners().bound())
        .isLessThanOrEqualTo(plan.partners().fewest())
        .isGreaterThan(1);
    assertLaws(plan);
  }

  @Test
  void one_variety_alone_is_told_that_it_wants_a_partner_and_a_self_fertile_one_is_not() {
    PlantingPlan alone =
        plan(Plot.rectangle(20, 40, null), Layout.USUAL, new Wanted("g-969", "fuji", null));
    assertThat(alone.farthestPartnerM()).isNull();
    assertThat(alone.partners().failing()).hasSameSizeAs(alone.trees());
    assertThat(alone.cautions())
        .extracting(PlantingPlan.Caution::code)
        .contains("no-pollen-partner");
    PlantingPlan tart =
        plan(
            Plot.rectangle(20, 40, null), Layout.USUAL, new Wanted("mahaleb", "montmorency", null));
    assertThat(tart.partners().failing()).isEmpty();
    assertThat(tart.cautions())
        .extracting(PlantingPlan.Caution::code)
        .doesNotContain("no-pollen-partner");
  }

  @Test
  void a_garden_holds_different_fruits_each_with_its_own_room() {
    PlantingPlan plan =
        plan(
            Plot.rectangle(10, 14, null),
            new Layout(null, Layout.Access.BARROW, null, null, null, null, null),
            new Wanted("m-9", "fuji", 0.5),
            new Wanted("m-7", "gala", 0.5));
    assertThat(plan.order()).allSatisfy(o -> assertThat(o.count()).isPositive());
    assertThat(plan.order().get(0).inRowM()).isLessThan(plan.order().get(1).inRowM());
    assertThat(plan.clearM()).isGreaterThanOrEqualTo(1.2 - 1e-9);
    assertLaws(plan);
  }

  @Test
  void rows_run_north_unless_the_plot_is_long_the_ground_falls_or_the_grower_says() {
    Wanted fuji = new Wanted("m-9", "fuji", null);
    assertThat(plan(Plot.rectangle(50, 50, null), Layout.USUAL, fuji).rowBearingDeg()).isZero();
    PlantingPlan strip = plan(Plot.rectangle(60, 2.9, null), Layout.USUAL, fuji);
    assertThat(strip.rowBearingDeg())
        .as(strip.direction().in(Words.ENGLISH, Units.METRIC))
        .isEqualTo(90);
    Plot slope = new Plot(Plot.corners(50, 50), List.of(), null, null, new Plot.Slope(12, 30), 0);
    PlantingPlan contour = plan(slope, Layout.USUAL, fuji);
    assertThat(contour.rowBearingDeg()).isEqualTo(120);
    assertThat(contour.direction().in(Words.ENGLISH, Units.METRIC)).contains("contour");
    assertThat(
            plan(slope, new Layout(null, null, 45.0, null, null, null, null), fuji).rowBearingDeg())
        .isEqualTo(45);
    Plot turned = new Plot(Plot.corners(50, 50), List.of(), null, null, null, 90);
    assertThat(plan(turned, Layout.USUAL, fuji).rowBearingDeg())
        .as("the plot's x axis points south")
        .isEqualTo(90);
  }

  @Test
  void a_hedgerow_is_closer_and_stands_on_wires() {
    Wanted fuji = new Wanted("m-9", "fuji", null);
    PlantingPlan free = plan(Plot.rectangle(50, 50, null), Layout.USUAL, fuji);
    PlantingPlan hedge =
        plan(
            Plot.rectangle(50, 50, null),
            new Layout(Layout.Form.HEDGEROW, null, null, null, null, null, null),
            fuji);
    assertThat(hedge.inRowM()).isLessThan(free.inRowM());
    assertThat(hedge.materials().wireM())
        .isGreaterThan(hedge.rows() * 45.0 * hedge.materials().wires());
    assertThat(free.materials().wireM()).isZero();
    assertThat(free.materials().posts() + free.materials().stakesForYears())
        .isEqualTo(free.trees().size());
    PlantingPlan strong =
        plan(
            Plot.rectangle(90, 90, null),
            new Layout(Layout.Form.HEDGEROW, null, null, null, null, null, null),
            new Wanted("mm-111", "fuji", null));
    assertThat(strong.cautions())
        .extracting(PlantingPlan.Caution::code)
        .contains("too-vigorous-for-hedgerow");
  }

  @Test
  void a_single_tree_stands_at_the_foot_of_the_wall() {
    PlantingPlan plan =
        plan(
            Plot.rectangle(6, 10, null),
            new Layout(Layout.Form.AGAINST_WALL, null, null, null, null, null, null),
            new Wanted("m-9", "fuji", null));
    assertThat(plan.trees()).hasSize(1);
    assertThat(plan.trees().get(0).place().xM()).isCloseTo(3, within(0.001));
    assertThat(plan.trees().get(0).place().yM()).isCloseTo(9.75, within(0.001));
    PlantingPlan west =
        plan(
            Plot.rectangle(6, 10, null),
            new Layout(Layout.Form.AGAINST_WALL, null, null, null, null, 3, Layout.Side.WEST),
            new Wanted("m-9", "fuji", null));
    assertThat(west.trees())
        .hasSizeBetween(2, 3)
        .allSatisfy(t -> assertThat(t.place().xM()).isCloseTo(0.25, within(0.001)));
    assertThatThrownBy(
            () ->
                plan(
                    Plot.rectangle(1, 10, null),
                    new Layout(Layout.Form.AGAINST_WALL, null, null, null, null, null, null),
                    new Wanted("mm-111", "fuji", null)))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("1.0 m long");
  }

  @Test
  void what_cannot_be_planted_is_refused_with_the_way_out() {
    assertThatThrownBy(() -> plan(Plot.rectangle(1, 1, null), Layout.USUAL, FUJI, GALA))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("no tree has room")
        .hasMessageContaining("weaker stock");
    assertThatThrownBy(
            () ->
                plan(
                    Plot.rectangle(20, 20, null),
                    Layout.USUAL,
                    FUJI,
                    new Wanted("g-969", "gala", 0.05)))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("add up to 90 %");
    assertThatThrownBy(
            () ->
                plan(Plot.rectangle(20, 20, null), Layout.USUAL, new Wanted("g-969", "fujj", null)))
        .isInstanceOf(Refusal.Unknown.class)
        .hasMessageContaining("fuji");
    assertThatThrownBy(
            () ->
                plan(
                    Plot.rectangle(4000, 4000, null),
                    Layout.USUAL,
                    new Wanted("m-9", "fuji", null)))
        .hasMessageContaining("plan it in parts");
    assertThatThrownBy(
            () ->
                plan(
                    Plot.rectangle(20, 20, null),
                    Layout.USUAL,
                    FUJI,
                    new Wanted("g-969", "fuji", 0.15)))
        .hasMessageContaining("in the list already");
  }

  @Test
  void ten_thousand_trees_are_planned_as_carefully() {
    PlantingPlan plan =
        PLANNER.plan(
            new PlantingQuestion(
                Plot.rectangle(200, 250, 6.0),
                new Layout(
                    Layout.Form.HEDGEROW, Layout.Access.TRACTOR, null, null, null, null, null),
                List.of(new Wanted("m-9", "fuji", 1.0), new Wanted("m-9", "gala", null)),
                Site.UNKNOWN,
                Goal.UNKNOWN,
                new PollenRule(30, 0.0),
                4));
    assertThat(plan.trees()).hasSizeGreaterThan(8_000);
    assertThat(plan.partners().failing()).isEmpty();
    System.out.printf(
        "%d trees, partners %d, at least %d, gap %.2f%n",
        plan.trees().size(),
        plan.partners().fewest(),
        plan.partners().bound(),
        plan.partners().gap());
    assertThat(plan.partners().gap()).isLessThan(0.6);
    assertThat(
            PLANNER.plan(
                new PlantingQuestion(
                    plan.plot(),
                    plan.layout(),
                    List.of(new Wanted("m-9", "fuji", 1.0), new Wanted("m-9", "gala", null)),
                    Site.UNKNOWN,
                    Goal.UNKNOWN,
                    new PollenRule(30, 0.0),
                    4)))
        .isEqualTo(plan);
  }

  private static PlantingPlan plan(Plot plot, Layout layout, Wanted... trees) {
    return PLANNER.plan(
        new PlantingQuestion(
            plot,
            layout,
            Arrays.asList(trees),
            Site.UNKNOWN,
            Goal.UNKNOWN,
            PollenRule.USUAL,
            PlantingQuestion.USUAL_SPARE_PERCENT));
  }

  /** No two trees too near, partners no farther than told, no more trees than their ground. */
  private static void assertLaws(PlantingPlan plan) {
    List<Tree> trees = plan.trees();
    double least =
        plan.order().stream().mapToDouble(PlantingPlan.Ordered::inRowM).min().orElseThrow();
    Map<Integer, Integer> counts = new java.util.HashMap<>();
    for (Tree tree : trees) {
      counts.merge(tree.pairing(), 1, Integer::sum);
      for (Tree other : trees) {
        if (other == tree) continue;
        assertThat(tree.place().to(other.place()))
            .isGreaterThanOrEqualTo(tree.row() == other.row() ? least - 1e-6 : plan.rowM() - 1e-6);
      }
      @Nullable Double partner = tree.partnerM();
      if (partner != null)
        assertThat(partner <= plan.partners().beeDistanceM() + 1e-6)
            .isEqualTo(
                !plan.partners()
                    .failing()
                    .contains(new PlantingPlan.Place(tree.row(), tree.position())));
    }
    plan.order().forEach(o -> assertThat(o.count()).isEqualTo(counts.getOrDefault(o.pairing(), 0)));
    double crownM = plan.rowM() - plan.clearM();
    assertThat(trees.size() * least * Math.min(crownM, plan.rowM()))
        .isLessThanOrEqualTo(plan.plot().areaM2() * 1.0001);
  }
}
