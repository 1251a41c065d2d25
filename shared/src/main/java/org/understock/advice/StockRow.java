package org.understock.advice;

import java.util.List;
import java.util.Map;
import org.understock.growth.StockGrowth;
import org.understock.plant.Stock;

/**
 * One stock of a crop, made ready for scoring.
 *
 * @param advised whether it has evidence enough to be advised unasked
 * @param levels draws of its levels, by trait
 * @param hardyC draws of the air temperature in °C that it stands
 * @param size scores of its size, shared by all varieties on it; see {@link CropTables#STOCK_SHARE}
 */
record StockRow(
    Stock stock, StockGrowth growth, boolean advised, Map<String, LevelDraws> levels, double[] hardyC, boolean hardinessKnown, List<String> hardinessRecords, double[] size,
    double[] time, double[] yield, double[] life) {}
