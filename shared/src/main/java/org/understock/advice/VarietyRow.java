package org.understock.advice;

import java.util.List;
import java.util.Map;
import org.understock.growth.VarietyGrowth;
import org.understock.plant.Variety;

/**
 * One variety, made ready for scoring. Fields as in {@link StockRow}.
 *
 * @param logChillHours draws of the natural log of its chilling requirement in hours
 * @param logChillPortions the same in Dynamic Model portions
 */
record VarietyRow(
    Variety variety, VarietyGrowth growth, boolean advised, Map<String, LevelDraws> levels, double[] hardyC, boolean hardinessKnown, List<String> hardinessRecords,
    double[] logChillHours, boolean chillHoursKnown, List<String> chillHoursRecords, double[] logChillPortions, boolean chillPortionsKnown, List<String> chillPortionsRecords, double[] size, double[] time,
    double[] yield, double[] life) {}
