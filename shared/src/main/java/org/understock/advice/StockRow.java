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
 */
record StockRow(
    Stock stock,
    StockGrowth growth,
    boolean advised,
    Map<String, LevelDraws> levels,
    Hardy hardy,
    TrackRecord track,
    Scores scores) {
  StockRow with(Map<String, LevelDraws> levels) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores);
  }

  StockRow with(Hardy hardy) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores);
  }

  StockRow with(Scores scores) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores);
  }

  StockRow with(StockGrowth growth) {
    return new StockRow(stock, growth, advised, levels, hardy, track, scores);
  }
}
