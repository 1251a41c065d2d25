package org.understock.climate;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * What the winters of a place mean for varieties and stocks.
 *
 * @param winters every winter of the series
 * @param safeChill the amount that nine of ten complete winters exceed, by measure; empty without a
 *     complete one
 * @param trends change over the complete winters, by measure; only with eight or more
 * @param cold coldest nights; empty without a complete winter
 */
public record ClimateOutlook(
    Winters winters,
    Map<ChillMeasure, Double> safeChill,
    Map<ChillMeasure, Trend> trends,
    Optional<WinterCold> cold,
    List<VarietyOutlook> varieties,
    List<StockOutlook> stocks) {

  /**
   * A need for chill, and the chance that a winter of the place meets it; empty without a complete
   * winter.
   */
  public record NeedMet(ChillNeed need, OptionalDouble chanceMet) {}

  /**
   * The air temperature that a plant bears, and the chance that it survives a winter of the place.
   */
  public record Cold(Estimate limit, OptionalDouble chanceSurvives) {}

  /**
   * @param needs the need that counts first; empty when none is published
   */
  public record VarietyOutlook(
      Variety variety, List<NeedMet> needs, Optional<Cold> cold, Optional<BloomOutlook> bloom) {}

  /** A stock under one crop. */
  public record StockOutlook(Stock stock, Optional<Cold> cold) {}

  /**
   * @param measured winters of the series as it was measured
   * @param winters those to answer for: the same, or of a warmed series
   * @param stocks stocks with the crop that they are to stand under
   */
  public static ClimateOutlook of(
      TraitBook book,
      Winters measured,
      Winters winters,
      List<Variety> varieties,
      Map<Stock, Subject.StockIn> stocks,
      List<ToldBloom> bloom) {
    Map<ChillMeasure, Double> safe = new EnumMap<>(ChillMeasure.class);
    Map<ChillMeasure, Trend> trends = new EnumMap<>(ChillMeasure.class);
    int[] years = winters.complete().stream().mapToInt(w -> w.from().getYear()).toArray();
    for (ChillMeasure measure : ChillMeasure.values()) {
      double[] chill = winters.complete(measure);
      if (chill.length > 0) safe.put(measure, SafeChill.of(chill));
      Trend.of(years, chill).ifPresent(trend -> trends.put(measure, trend));
    }
    Optional<WinterCold> cold = WinterCold.of(winters);
    CriticalTemperatures temperatures = CriticalTemperatures.published();
    List<VarietyOutlook> ofVarieties = new ArrayList<>();
    Map<Crop, PlaceBloom> blooms = new EnumMap<>(Crop.class);
    for (Variety variety : varieties) {
      List<ChillNeed> needs = ChillNeed.of(book, variety);
      Optional<Estimate> limit =
          book.estimate(
              new Subject.OfVariety(variety.crop(), variety.id()), "min-winter-temperature");
      ofVarieties.add(
          new VarietyOutlook(
              variety,
              needs.stream().map(n -> new NeedMet(n, n.chanceMet(winters))).toList(),
              cold(limit, cold),
              blooms
                  .computeIfAbsent(
                      variety.crop(), c -> new PlaceBloom(book, c, bloom, measured, winters))
                  .of(variety)
                  .map(b -> BloomOutlook.of(b, variety, winters.series(), temperatures))));
    }
    List<StockOutlook> ofStocks = new ArrayList<>();
    stocks.forEach(
        (stock, subject) ->
            ofStocks.add(
                new StockOutlook(
                    stock,
                    cold(book.estimate(subject, "min-winter-temperature"), cold)
                        .or(() -> cold(book.estimate(subject, "winter-cold"), cold)))));
    return new ClimateOutlook(
        winters, safe, trends, cold, List.copyOf(ofVarieties), List.copyOf(ofStocks));
  }

  private static Optional<Cold> cold(Optional<Estimate> limit, Optional<WinterCold> cold) {
    return limit.map(
        estimate ->
            new Cold(
                estimate,
                cold.map(
                        c ->
                            estimate instanceof Estimate.Interval interval
                                ? c.chanceSurvives(interval)
                                : estimate instanceof Estimate.Levels levels
                                    ? c.chanceStockSurvives(levels)
                                    : OptionalDouble.empty())
                    .orElse(OptionalDouble.empty())));
  }
}
