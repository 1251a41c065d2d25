package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.plant.Crop;
import org.understock.site.Goal;

/**
 * Facts of the trade about apple trees that must come out of the starter evidence. Unless a source
 * is named: common practice, no source. Some of them lie in the evidence under that very tag, so
 * {@link LeftOutTest} asks for them again without those rows.
 */
class TradeFactsTest {
  /** From the most dwarfing to the seedling. */
  private static final List<String> SERIES =
      List.of("m-27", "b-9", "m-9", "m-26", "m-7", "mm-106", "mm-111", "seedling");

  @ParameterizedTest(name = "{0}: {1} to {2} m")
  @CsvSource({"m-27, 1.2, 2.0", "mm-111, 4.6, 6.1", "seedling, 7.5, 9.0"})
  void usual_heights_of_garden_trees(String stock, double lowM, double highM) {
    // The trade says "near" of trees of no variety in particular, and answers are given to a
    // decimetre. The seedling sits at the low edge, drawn down by
    // published orchard heights: 7.5 m for an unknown variety, 7.4 m under 'Golden Delicious'.
    assertThat(Math.rint(10 * height(stock, "")) / 10).as("any variety").isBetween(lowM, highM);
  }

  /**
   * Left to itself the seedling tree stands in the middle of what the trade says; the usual pruning
   * keeps it near the low edge.
   */
  @Test
  void a_seedling_tree_left_to_itself_reaches_its_usual_height_under_middling_varieties() {
    for (String variety : List.of("", "golden-delicious", "delicious")) {
      assertThat(StarterGrowth.expect(Crop.APPLE, "seedling", variety).freeHeightM().median())
          .as(variety)
          .isBetween(7.5, 9.0);
    }
  }

  /**
   * A weak variety makes 2.4-3.0 m on M.7, a strong one 3.0-3.7 m. Vigour of the varieties:
   * hirst-2001-nc140-1990-more.
   */
  @Test
  void height_on_m7_follows_the_variety() {
    assertThat(height("m-7", "empire")).isBetween(2.4, 3.0);
    assertThat(height("m-7", "stayman")).isBetween(2.4, 3.0);
    assertThat(height("m-7", "rome-beauty")).isBetween(3.0, 3.7);
    assertThat(height("m-7", "jonagold")).isBetween(3.0, 3.7);
  }

  @Test
  void a_weak_variety_makes_an_appreciably_smaller_tree_on_every_stock() {
    for (String stock : SERIES)
      assertThat(height(stock, "empire") / height(stock, "rome-beauty"))
          .as(stock)
          .isBetween(0.7, 0.9);
  }

  @Test
  void the_more_dwarfing_the_smaller_the_earlier_and_the_shorter_lived() {
    rises(s -> height(s, ""), 1);
    rises(s -> tree(s).spreadM().median(), 1);
    rises(s -> tree(s).firstCropYear().median(), 1);
    rises(s -> tree(s).fullCropYear().median(), 1);
    rises(s -> tree(s).lifeYears().median(), 1);
  }

  @Test
  void semi_dwarf_trees_crop_from_year_three_to_five_and_standard_trees_from_year_eight_to_ten() {
    for (String semiDwarf : List.of("m-26", "m-7", "mm-106"))
      assertThat(tree(semiDwarf).firstCropYear().median()).as(semiDwarf).isBetween(3.0, 5.0);
    LogNormal standard = tree("seedling").firstCropYear();
    assertThat(standard.median())
        .as("published too: year 6 to 10, az-mg-tree-fruits-table1")
        .isBetween(7.5, 10.0);
    assertThat(standard.p90()).isGreaterThan(10);
  }

  /**
   * The smaller the tree, the more it bears for its room: here per canopy, in the trials per trunk
   * (next test).
   */
  @Test
  void dwarf_trees_bear_more_for_their_room() {
    rises(s -> -tree(s).yieldKgPerCanopyM3(), 0.9);
    assertThat(tree("m-9").yieldKgPerCanopyM3())
        .isGreaterThan(3 * tree("seedling").yieldKgPerCanopyM3());
  }

  @Test
  void four_to_six_semi_dwarf_trees_fill_the_space_of_a_standard_tree() {
    double standard = Math.pow(tree("seedling").spreadM().median(), 2);
    double semiDwarf =
        List.of("m-26", "m-7").stream()
            .mapToDouble(s -> Math.pow(tree(s).spreadM().median(), 2))
            .average()
            .orElseThrow();
    assertThat(standard / semiDwarf).isBetween(4.0, 6.0);
  }

  /**
   * Pruned height is 0.5 to 0.8 of the free height (csu-cmg-771; 24 of 30 ft with good pruning,
   * ext-apples-qa).
   */
  @Test
  void pruning_moves_size_some_not_a_lot() {
    Goal tiny = new Goal(null, 0.5, null, null, null, null, null, null, Map.of());
    for (String stock : SERIES) {
      Expectations kept = StarterGrowth.expect(StarterGrowth.of(Crop.APPLE), stock, "", tiny);
      double share = kept.heightM().median() / kept.freeHeightM().median();
      assertThat(share).as(stock).isBetween(0.5, 0.85);
    }
  }

  /**
   * Stocks that the tables call "needs support" or "free-standing" (uvm-garcia-rootstocks,
   * ext-apples-rootstock-info and others in the evidence).
   */
  @Test
  void dwarf_trees_need_support_and_vigorous_ones_stand() {
    for (String dwarf : List.of("m-27", "m-9", "m-9-t337", "b-9", "g-41")) {
      assertThat(tree(dwarf).support().likely()).as(dwarf).isEqualTo(SupportNeed.Level.PERMANENT);
    }
    for (String vigorous : List.of("mm-106", "mm-111", "seedling", "antonovka-313")) {
      assertThat(tree(vigorous).support().likely()).as(vigorous).isEqualTo(SupportNeed.Level.NONE);
    }
  }

  /** Rank correlation along the series at least this much; 1 means strictly rising. */
  private static void rises(java.util.function.ToDoubleFunction<String> value, double least) {
    double[] y = SERIES.stream().mapToDouble(value).toArray();
    List<Integer> order =
        java.util.stream.IntStream.range(0, y.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> y[i]))
            .toList();
    double d2 = 0;
    for (int rank = 0; rank < order.size(); rank++) d2 += Math.pow(rank - order.get(rank), 2);
    int n = y.length;
    assertThat(1 - 6 * d2 / (n * (n * n - 1.0)))
        .as(java.util.Arrays.toString(y))
        .isGreaterThanOrEqualTo(least);
  }

  private static Expectations tree(String stock) {
    return StarterGrowth.expect(Crop.APPLE, stock, "");
  }

  private static double height(String stock, String variety) {
    return StarterGrowth.expect(Crop.APPLE, stock, variety).heightM().median();
  }
}
