package org.understock.planting;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Refusal;

/**
 * What is to be planted, and where.
 *
 * @param trees the pairings, 1 to 30; those without a share are pollen partners of the others, and
 *     get as few trees as do it
 * @param sparePercent trees to order beyond those planted, 0 to 50 %
 */
public record PlantingQuestion(
    Plot plot,
    Layout layout,
    List<Wanted> trees,
    Site site,
    Goal goal,
    PollenRule pollen,
    double sparePercent) {

  /** Most pairings of one plan. */
  public static final int MOST_PAIRINGS = 30;

  /** Common practice, no source: one tree in twenty-five fails or comes damaged. */
  public static final double USUAL_SPARE_PERCENT = 4;

  private static final double ROUNDING = 0.005;

  /**
   * One pairing by ids.
   *
   * @param share of the trees that are no partners, above 0 and at most 1; null for a pollen
   *     partner, or for equal shares where no pairing has one
   */
  public record Wanted(String stock, String variety, @Nullable Double share) {}

  public PlantingQuestion {
    trees = List.copyOf(trees);
    layout = layout.formed(goal);
    if (trees.isEmpty() || trees.size() > MOST_PAIRINGS) {
      throw new Refusal.OutOfRange(
          "trees", trees.size() + " pairings", "between 1 and " + MOST_PAIRINGS + " pairings");
    }
    Plot.range("sparePercent", sparePercent, 0, 50, "%");
    double sum = 0;
    for (int k = 0; k < trees.size(); k++) {
      Double share = trees.get(k).share();
      if (share == null) continue;
      if (!(share > 0 && share <= 1))
        throw new Refusal.OutOfRange("trees[" + k + "].share", share, "above 0 and at most 1");
      sum += share;
    }
    boolean any = trees.stream().anyMatch(t -> t.share() != null);
    if (any && Math.abs(sum - 1) > ROUNDING) {
      throw new Refusal.Conflict(
          "trees",
          "the shares of trees add up to "
              + Metres.percent(sum)
              + "; they must add up to 100 % (a pairing without a share"
              + " is a pollen partner and gets as few trees as do it)");
    }
  }
}
