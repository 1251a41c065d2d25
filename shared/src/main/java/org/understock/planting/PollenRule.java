package org.understock.planting;

import org.jspecify.annotations.Nullable;

/**
 * How near a pollen partner has to stand, and how many there must be.
 *
 * @param beeDistanceM farthest useful partner, 1 to 500 m
 * @param leastShare least share of the trees that are partners where partners are placed, 0 to 0.5;
 *     null for the share usual in the crop
 */
public record PollenRule(double beeDistanceM, @Nullable Double leastShare) {

  /** 100 ft: with the partner farther away, pollination may be poor (wsu-pollination). */
  public static final double USUAL_BEE_DISTANCE_M = 30;

  public static final PollenRule USUAL = new PollenRule(USUAL_BEE_DISTANCE_M, null);

  public PollenRule {
    Plot.range("pollen.beeDistanceM", beeDistanceM, 1, 500, "m");
    if (leastShare != null)
      Plot.range("pollen.leastPartnerShare", leastShare, 0, 0.5, "of the trees");
  }
}
