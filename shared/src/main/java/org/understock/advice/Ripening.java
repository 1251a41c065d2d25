package org.understock.advice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.climate.SeasonLength;

/**
 * The frost-free season that a variety wants in order to ripen, as draws. Of a variety whose
 * ripening is not on record it is one of its crop's.
 *
 * @param draws days from last spring to first autumn frost
 * @param known whether its own ripening is on record
 */
record Ripening(double[] draws, boolean known, List<String> records) {
  /*
   * The line between ripe and unripe rests on one publication and on days alone, while warmth counts too: it takes most of the score of a variety
   * that is too late by it, but by itself rules none out. The share is a judgement.
   */
  private static final double UNRIPE_LEAVES = 0.35;

  /** Null where the crop has no evidence on it. */
  static @Nullable Ripening of(SeasonLength season, String variety) {
    SeasonLength.Need need = season.need(variety).orElse(null);
    if (need == null) return null;
    double[] draws = Draws.normal("season of " + variety);
    for (int d = 0; d < draws.length; d++) draws[d] = need.days() + need.sd() * draws[d];
    return new Ripening(draws, need.known(), need.records());
  }

  /** 1 in the draws in which the fruit ripens; in the others what is left of the tree's worth. */
  double[] factor(double frostFreeDays) {
    double[] factor = new double[draws.length];
    for (int d = 0; d < draws.length; d++)
      factor[d] = draws[d] <= frostFreeDays ? 1 : UNRIPE_LEAVES;
    return factor;
  }

  double chance(double frostFreeDays) {
    return (double) java.util.Arrays.stream(draws).filter(days -> days <= frostFreeDays).count()
        / draws.length;
  }

  double meanDays() {
    return java.util.Arrays.stream(draws).average().orElseThrow();
  }
}
