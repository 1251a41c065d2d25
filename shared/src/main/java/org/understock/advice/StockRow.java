package org.understock.advice;

import java.util.Map;
import org.understock.growth.StockGrowth;
import org.understock.plant.Stock;

/**
 * One stock of a crop, made ready for scoring.
 *
 * @param advised whether it has evidence enough to be advised unasked
 * @param levels draws of its levels, by trait
 * @param track how much is on record of it
 * @param merits what its levels are worth
 */
record StockRow(
    Stock stock,
    StockGrowth growth,
    boolean advised,
    Map<String, LevelDraws> levels,
    Hardy hardy,
    TrackRecord track,
    Scores scores,
    Merits merits) {
  StockRow with(Map<String, LevelDraws> levels) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores, new Merits(levels));
  }

  StockRow with(Hardy hardy) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores, merits);
  }

  StockRow with(Scores scores) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores, merits);
  }

  StockRow with(StockGrowth growth) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores, merits);
  }
}
