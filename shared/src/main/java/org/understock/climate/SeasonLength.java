package org.understock.climate;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;

/**
 * Chance that an apple variety ripens within the frost-free season of a site, from its ripening against Delicious (trait
 * {@code harvest-offset}). No other crop has the evidence for it, so no other crop gets an answer.
 */
public final class SeasonLength {
  /*
   * One published line ties varieties to a season. In Maine Mutsu, Rome Beauty and Granny Smith (10, 21 and 32 days after Delicious in
   * nc-hil-302), and with them Braeburn, GoldRush and Cripps Pink, do not ripen (University of Maine, Growing fruit trees in Maine: selecting
   * varieties); Delicious and Cortland are planted in the neighbouring Vermont (uvm-cold-fruit). The frost-free season there runs from about
   * 6 May to 2 October, 149 days (University of Maine Cooperative Extension, Hancock County, 2024). So at 149 days the line lies between
   * Delicious and ten days later; we put it in the middle. Judgement: a day more of season lets a day later a variety ripen, and the line at
   * another place is uncertain by a week (standard deviation), since warmth counts too and not days alone.
   */
  private static final double MAINE_FROST_FREE_DAYS = 149;
  private static final double LATEST_IN_MAINE_DAYS_AFTER_DELICIOUS = 5;
  private static final double LINE_SD_DAYS = 7;
  private static final String REFERENCE = "delicious";

  private final Map<String, Offset> offsets;

  /** Ripening in days after the reference variety. */
  private record Offset(double days, double sd) {}

  private SeasonLength(Map<String, Offset> offsets) {
    this.offsets = offsets;
  }

  /** Reads the ripening of a crop's varieties; without a record about Delicious, or for another crop than apple, nothing is known. */
  public static SeasonLength of(TraitBook book, Crop crop) {
    Map<String, Offset> offsets = new HashMap<>();
    if (crop != Crop.APPLE) return new SeasonLength(offsets);
    Estimate.Interval reference = offset(book, REFERENCE);
    if (reference == null) return new SeasonLength(offsets);
    for (Variety variety : book.plants().varieties()) {
      Estimate.Interval own = variety.crop() == crop ? offset(book, variety.id()) : null;
      if (own == null) continue;
      double sd = variety.id().equals(REFERENCE) ? 0 : Math.hypot(own.predictionSd(), reference.standardError());
      offsets.put(variety.id(), new Offset(own.mean() - reference.mean(), sd));
    }
    return new SeasonLength(offsets);
  }

  /**
   * Chance that the fruit ripens before the first autumn frost of a usual year.
   *
   * @param frostFreeDays days from the last spring to the first autumn frost, or null when unknown
   * @return empty when the season or the variety's ripening is unknown
   */
  public OptionalDouble chanceRipens(String varietyId, @Nullable Double frostFreeDays) {
    Offset offset = offsets.get(varietyId);
    if (offset == null || frostFreeDays == null) return OptionalDouble.empty();
    double latest = LATEST_IN_MAINE_DAYS_AFTER_DELICIOUS + frostFreeDays - MAINE_FROST_FREE_DAYS;
    double sd = Math.hypot(offset.sd(), LINE_SD_DAYS);
    return OptionalDouble.of(NormalDistribution.of(offset.days(), sd).cumulativeProbability(latest));
  }

  private static Estimate.@Nullable Interval offset(TraitBook book, String variety) {
    return (Estimate.Interval) book.estimate(new Subject.OfVariety(Crop.APPLE, variety), "harvest-offset").orElse(null);
  }
}
