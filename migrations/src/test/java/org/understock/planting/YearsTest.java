package org.understock.planting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.growth.YearYield;
import org.understock.migrations.StarterEvidence;
import org.understock.planting.PlantingQuestion.Wanted;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Refusal;

/** The crops of whole plantings, against those of their trees. */
class YearsTest {
  private static final Planner PLANNER =
      Planner.of(Adviser.of(CompiledTraitBook.compile(1, StarterEvidence.read().evidence())));
  private static final PlantingPlan ONE = plan(new Wanted("m-26", "gala", null));

  @Test
  void trees_of_one_pairing_stand_and_fall_together() {
    int n = ONE.trees().size();
    List<YearYield> tree = ONE.pairings().get(0).expectations().yearlyYield(30);
    List<YearYield> plot = Years.of(ONE).yearly(30);
    for (int k = 0; k < 30; k++) {
      assertThat(plot.get(k).year()).isEqualTo(k + 1);
      double slip =
          k < 8
              ? 0.08
              : 0.05; // one tree's figures come from 255 trees, which is coarse while the crop
      // rises
      assertThat(plot.get(k).likely())
          .isCloseTo(n * tree.get(k).likely(), within(slip * n * tree.get(k).likely() + 1e-9));
      if (k < 5) continue;
      assertThat(plot.get(k).high() / plot.get(k).low())
          .isCloseTo(
              tree.get(k).high() / tree.get(k).low(),
              within(0.2 * tree.get(k).high() / tree.get(k).low()));
    }
  }

  @Test
  void pairings_with_nothing_in_common_even_each_other_out_and_those_on_one_stock_hardly() {
    double alone = width(ONE);
    double oneStock =
        width(plan(new Wanted("m-26", "gala", null), new Wanted("m-26", "fuji", null)));
    double apart = width(plan(new Wanted("m-26", "gala", null), new Wanted("m-7", "fuji", null)));
    assertThat(apart).isLessThan(0.97 * Math.min(alone, oneStock));
    assertThat(oneStock).isBetween(0.85 * alone, 1.05 * alone);
  }

  @Test
  void enough_trees_are_enough_and_one_fewer_are_not() {
    Years years = Years.of(ONE);
    YearYield sixth = years.yearly(6).get(5);
    int n = ONE.trees().size();
    Years.Enough enough = years.enough(150, 6);
    assertThat(enough.trees() * sixth.likely() / n).isGreaterThanOrEqualTo(150);
    assertThat((enough.trees() - 1) * sixth.likely() / n).isLessThan(150);
    assertThat(enough.safeTrees()).isNotNull().isGreaterThan(enough.trees());
    assertThat(enough.safeTrees() * sixth.low() / n).isGreaterThanOrEqualTo(150);
    assertThatThrownBy(() -> years.enough(150, 1))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("first crop comes in year");
    assertThatThrownBy(() -> years.enough(0, 6)).isInstanceOf(Refusal.OutOfRange.class);
  }

  @Test
  void nothing_is_borne_before_the_first_crop() {
    Years years = Years.of(ONE);
    List<YearYield> yearly = years.yearly(20);
    assertThat(years.withoutCrop()).isBetween(1, 4);
    for (YearYield year : yearly) {
      if (year.year() <= years.withoutCrop()) assertThat(year.likely()).isZero();
      else assertThat(year.likely()).isPositive();
      assertThat(year.low()).isLessThanOrEqualTo(year.likely());
      assertThat(year.likely()).isLessThanOrEqualTo(year.high());
    }
  }

  private static double width(PlantingPlan plan) {
    YearYield year = Years.of(plan).yearly(12).get(11);
    return Math.log(year.high() / year.low());
  }

  private static PlantingPlan plan(Wanted... trees) {
    return PLANNER.plan(
        new PlantingQuestion(
            Plot.rectangle(30, 40, null),
            Layout.USUAL,
            List.of(trees),
            Site.UNKNOWN,
            Goal.UNKNOWN,
            PollenRule.USUAL,
            4));
  }
}
