package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Grade;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

class SpacingTest {
  private static final Spacing SPACING = new Spacing(2.0);
  private static final VarietyGrowth MIDDLING =
      new VarietyGrowth("middling", new LogNormal(0, 0.05), false, true, List.of());
  private static final VarietyGrowth WEAK =
      new VarietyGrowth("weak", new LogNormal(Math.log(0.87), 0.05), false, true, List.of());
  private static final SiteGrowth ANYWHERE = SiteGrowth.of(Site.UNKNOWN);

  @Test
  void usual_height_is_expected_without_a_wish() {
    Expectations tree =
        SPACING.expect(stock(4, 3.2, 2.6, 2.6, 30), MIDDLING, ANYWHERE, Goal.UNKNOWN);
    assertThat(tree.heightM().median()).isCloseTo(3.2, within(1e-9));
  }

  @Test
  void pruning_holds_a_tree_at_the_wish_while_it_can() {
    StockGrowth stock = stock(4, 3.2, 2.6, 2.6, 30);
    assertThat(SPACING.expect(stock, MIDDLING, ANYWHERE, wish(2.9)).heightM().median())
        .isCloseTo(2.9, within(1e-9));
    assertThat(SPACING.expect(stock, MIDDLING, ANYWHERE, wish(1.5)).heightM().median())
        .as("no lower than pruning holds it")
        .isCloseTo(2.6, within(1e-9));
    assertThat(SPACING.expect(stock, MIDDLING, ANYWHERE, wish(6)).heightM().median())
        .as("a wish does not stretch it")
        .isCloseTo(3.2, within(1e-9));
  }

  @Test
  void a_weak_variety_makes_a_smaller_tree_with_less_crop() {
    StockGrowth stock = stock(4, 3.2, 2.6, 2.6, 30);
    Expectations weak = SPACING.expect(stock, WEAK, ANYWHERE, Goal.UNKNOWN);
    Expectations middling = SPACING.expect(stock, MIDDLING, ANYWHERE, Goal.UNKNOWN);
    assertThat(weak.heightM().median()).isCloseTo(0.87 * 3.2, within(1e-9));
    assertThat(weak.inRowM()).isLessThan(middling.inRowM());
    assertThat(weak.matureYieldKg().median()).isLessThan(middling.matureYieldKg().median());
    assertThat(weak.firstCropYear().median()).isLessThan(middling.firstCropYear().median());
  }

  @Test
  void crowns_just_meet_in_the_row_and_an_alley_lies_between_rows() {
    Expectations tree =
        SPACING.expect(stock(4, 3.2, 2.6, 2.6, 30), MIDDLING, ANYWHERE, Goal.UNKNOWN);
    assertThat(tree.inRowM()).isEqualTo(2.6);
    assertThat(tree.rowM()).isEqualTo(4.6);
  }

  /**
   * Height over row width 0.9, 1.1 at most: 3.0 m trees in 3.4 m rows (fgn-tall-spindle-2007), 3.4
   * m trees in 3.7 m rows (wisc-trv-2023).
   */
  @Test
  void rows_leave_light_for_tall_narrow_trees() {
    Expectations tree = SPACING.expect(stock(9, 8, 7, 3, 60), MIDDLING, ANYWHERE, Goal.UNKNOWN);
    assertThat(tree.heightM().median() / tree.rowM()).isBetween(0.9, 1.105);
  }

  /**
   * Tall spindle on a dwarfing stock: 0.9-1.2 m in the row, rows of 3.4-3.7 m (nmsu-h307-yao,
   * gfg-horticulturist-tall-spindle).
   */
  @Test
  void walls_on_wires_stand_as_published_for_tall_spindles() {
    Goal market =
        new Goal(
            Goal.Purpose.MARKET_ORCHARD,
            null,
            null,
            null,
            null,
            null,
            null,
            Goal.Support.TRELLIS,
            Map.of());
    Expectations tree = SPACING.expect(stock(3, 2.6, 2.2, 2.3, 28), MIDDLING, ANYWHERE, market);
    assertThat(tree.inRowM()).isBetween(0.9, 1.2);
    assertThat(tree.rowM()).isBetween(3.3, 3.7);
    assertThat(SPACING.expect(stock(6, 5, 4, 5, 100), MIDDLING, ANYWHERE, market).inRowM())
        .as("vigorous stocks are not walled")
        .isEqualTo(5.0);
  }

  /** 70.6 t/ha, the full crop that supports are designed for (cornell-strong-support). */
  @Test
  void no_planting_bears_more_than_its_ground() {
    Expectations tree =
        SPACING.expect(stock(3, 2.6, 2.2, 2.0, 500), MIDDLING, ANYWHERE, Goal.UNKNOWN);
    assertThat(tree.yieldKgPerM2()).isCloseTo(7.06, within(1e-9));
  }

  @Test
  void wind_asks_for_more_support() {
    StockGrowth stock = stock(4, 3.2, 2.6, 2.6, 30);
    Site exposed =
        new Site(null, null, null, null, null, Soil.UNKNOWN, null, Site.Wind.EXPOSED, List.of());
    SupportNeed calm = SPACING.expect(stock, MIDDLING, ANYWHERE, Goal.UNKNOWN).support();
    SupportNeed windy =
        SPACING.expect(stock, MIDDLING, SiteGrowth.of(exposed), Goal.UNKNOWN).support();
    assertThat(windy.permanent()).isGreaterThan(calm.permanent());
    assertThat(windy.none()).isLessThan(calm.none());
  }

  private static Goal wish(double maxHeightM) {
    return new Goal(null, maxHeightM, null, null, null, null, null, null, Map.of());
  }

  private static StockGrowth stock(
      double freeM, double usualM, double lowestM, double spreadM, double kg) {
    return new StockGrowth(
        "stock",
        part(0.5),
        part(freeM),
        part(usualM),
        part(lowestM),
        part(spreadM),
        part(3),
        part(6),
        part(25),
        part(kg),
        new StockGrowth.Support(new SupportNeed(0.5, 0.3, 0.2), List.of()),
        List.of());
  }

  private static Part part(double median) {
    return new Part(new LogNormal(Math.log(median), 0.1), 0, List.of(), Grade.C, Part.Basis.OWN);
  }
}
