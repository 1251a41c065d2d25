package org.understock.growth;

import java.util.List;

/**
 * A quantity that follows a stock's size, and the traits that speak of it. Several traits may
 * describe the same quantity under different regimes (height left to grow, as usually kept, as low
 * as pruning holds it); a regime shifts the log quantity by the same amount for all stocks.
 */
enum Measure {
  /** Height in m. Regimes: left to grow, as usually kept, kept low by pruning. */
  HEIGHT(
      2.0,
      new Source("mature-height", 0),
      new Source("usual-height", 1),
      new Source("pruned-height", 2)),

  /**
   * Spread in m. Regimes: left to grow; as kept. Trees in a row are set so that full-grown crowns
   * just meet, so in-row distance is kept spread.
   */
  SPREAD(
      1.7,
      new Source("mature-spread", 0),
      new Source("pruned-spread", 1),
      new Source("in-row-spacing", 1)),

  /** Crop of a full-grown tree in kg a year. */
  YIELD(2.5, new Source("mature-yield", 0)),

  /** Years from planting. Regimes: to the first crop, to the full crop. */
  TIME(1.5, new Source("years-to-first-crop", 0), new Source("years-to-full-crop", 1)),

  /** Years that a tree lasts. */
  LIFE(1.0, new Source("lifespan", 0));

  private final double usualSlope;
  private final List<Source> sources;

  Measure(double usualSlope, Source... sources) {
    this.usualSlope = usualSlope;
    this.sources = List.of(sources);
  }

  /** A trait and the regime it describes; regime 0 is the one the others are shifted from. */
  record Source(String trait, int regime) {}

  /** Rough slope on {@link Size#score()} to start from; the evidence of all crops then moves it. */
  double usualSlope() {
    return usualSlope;
  }

  List<Source> sources() {
    return sources;
  }

  int regimes() {
    return sources.stream().mapToInt(Source::regime).max().orElse(0) + 1;
  }
}
