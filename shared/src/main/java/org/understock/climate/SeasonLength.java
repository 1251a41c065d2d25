package org.understock.climate;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.pooling.QuantityPool;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.trait.Value;

/**
 * Chance that an apple variety ripens within the frost-free season of a site, from its ripening
 * against Delicious (trait {@code harvest-offset}, or {@code harvest-day} of both by one source).
 * No other crop has the evidence for it, so no other crop gets an answer.
 */
public final class SeasonLength {
  /*
   * One published line ties varieties to a season. In Maine Mutsu, Rome Beauty and Granny Smith (10, 21 and 32 days after Delicious in
   * nc-hil-302), and with them Braeburn, GoldRush and Cripps Pink, do not ripen (University of Maine, Growing fruit trees in Maine: selecting
   * varieties); Delicious and Cortland are planted in the neighbouring Vermont (uvm-cold-fruit). The frost-free season there runs from about
   * 6 May to 2 October, 149 days (University of Maine Cooperative Extension, Hancock County, 2024). So at 149 days the line lies between
   * Delicious and ten days later; we put it in the middle. Judgement: a day more of season lets a day later a variety ripen, and the line at
   * another place is uncertain by a week (standard deviation), since warmth counts too and not days alone. The farther a variety's season is from
   * the one that was published, the less the line is worth: a quarter of a day more for every day.
   */
  private static final double MAINE_FROST_FREE_DAYS = 149;
  private static final double LATEST_IN_MAINE_DAYS_AFTER_DELICIOUS = 5;
  private static final double LINE_SD_DAYS = 7;
  private static final double LINE_SD_PER_DAY_AWAY = 0.25;

  /**
   * How far the order of ripening shifts from one place and year to another, between dates that one
   * source noted at one place: a judgement.
   */
  private static final double SAME_PLACE_SD_DAYS = 7;

  private static final String REFERENCE = "delicious";

  /** Varieties with a date of their own below which their spread says nothing of the others. */
  private static final int FEW = 3;

  private final Map<String, Offset> offsets;
  private final @Nullable Need usual;

  /** Ripening in days after the reference variety. */
  private record Offset(double days, double sd, List<String> records) {}

  /**
   * The frost-free season in which a variety just ripens.
   *
   * @param days its mean
   * @param sd what is uncertain about it, of the variety and of the line together
   * @param known false where the variety's own ripening is not on record and the spread of the
   *     crop's varieties stands for it
   */
  public record Need(double days, double sd, boolean known, List<String> records) {
    public Need {
      records = List.copyOf(records);
    }
  }

  private SeasonLength(Map<String, Offset> offsets) {
    this.offsets = offsets;
    usual = usual(offsets);
  }

  private static @Nullable Need usual(Map<String, Offset> offsets) {
    if (offsets.size() < FEW) return null;
    double[] days = offsets.values().stream().mapToDouble(Offset::days).sorted().toArray();
    double mean = java.util.Arrays.stream(days).average().orElseThrow();
    double variance =
        java.util.Arrays.stream(days).map(x -> (x - mean) * (x - mean)).sum() / (days.length - 1);
    return new Need(days(mean), Math.hypot(Math.sqrt(variance), lineSd(mean)), false, List.of());
  }

  private static double lineSd(double offset) {
    return Math.hypot(LINE_SD_DAYS, LINE_SD_PER_DAY_AWAY * (days(offset) - MAINE_FROST_FREE_DAYS));
  }

  private static double days(double offset) {
    return MAINE_FROST_FREE_DAYS + offset - LATEST_IN_MAINE_DAYS_AFTER_DELICIOUS;
  }

  /** The season that a variety needs; empty for a crop without evidence on it. */
  public Optional<Need> need(String varietyId) {
    Offset offset = offsets.get(varietyId);
    return offset == null
        ? Optional.ofNullable(usual)
        : Optional.of(
            new Need(
                days(offset.days),
                Math.hypot(offset.sd, lineSd(offset.days)),
                true,
                offset.records));
  }

  /** Whether the crop has the evidence to judge a season's length. */
  public boolean known() {
    return usual != null;
  }

  /**
   * Reads the ripening of a crop's varieties; without a record about Delicious, or for another crop
   * than apple, nothing is known.
   */
  public static SeasonLength of(TraitBook book, Crop crop) {
    Map<String, Offset> offsets = new HashMap<>();
    if (crop != Crop.APPLE) return new SeasonLength(offsets);
    Estimate.Interval reference = offset(book, REFERENCE);
    if (reference == null) return new SeasonLength(offsets);
    for (Variety variety : book.plants().varieties()) {
      if (variety.crop() != crop) continue;
      Offset offset = offset(book, variety.id(), reference);
      if (offset != null) offsets.put(variety.id(), offset);
    }
    return new SeasonLength(offsets);
  }

  /**
   * From days told relative to a variety, and from dates that one source notes of both at one
   * place, weighed by their spread.
   */
  private static @Nullable Offset offset(
      TraitBook book, String variety, Estimate.Interval reference) {
    Estimate.Interval told = offset(book, variety);
    if (variety.equals(REFERENCE))
      return told == null ? null : new Offset(0, 0, told.support().records());
    List<QuantityPool.Statement> statements = new ArrayList<>();
    List<String> records = new ArrayList<>();
    if (told != null) {
      statements.add(
          new QuantityPool.Statement(
              told.mean() - reference.mean(),
              Math.hypot(told.predictionSd(), reference.standardError())));
      records.addAll(told.support().records());
    }
    Map<String, TraitRecord> marks = dates(book, REFERENCE);
    dates(book, variety)
        .forEach(
            (source, own) -> {
              TraitRecord mark = marks.get(source);
              if (mark == null || day(own) >= day(mark))
                return; // where picking ends with the season, the late ones look alike
              statements.add(new QuantityPool.Statement(day(own) - day(mark), SAME_PLACE_SD_DAYS));
              records.add(own.id());
            });
    if (statements.isEmpty()) return null;
    QuantityPool.Pooled pooled = QuantityPool.pool(statements, 0);
    return new Offset(pooled.mean(), pooled.standardError(), records);
  }

  /** A variety's dates of ripening by source; of a source that notes several, the first by id. */
  private static Map<String, TraitRecord> dates(TraitBook book, String variety) {
    Map<String, TraitRecord> dates = new TreeMap<>();
    for (TraitRecord record : book.records(new Subject.OfVariety(Crop.APPLE, variety))) {
      if (record.trait().equals("harvest-day"))
        dates.merge(record.source(), record, (a, b) -> a.id().compareTo(b.id()) <= 0 ? a : b);
    }
    return dates;
  }

  private static double day(TraitRecord record) {
    if (record.value() instanceof Value.Quantity quantity) return quantity.value();
    Value.Range range = (Value.Range) record.value();
    double low = range.low() == null ? java.util.Objects.requireNonNull(range.high()) : range.low();
    return (low + (range.high() == null ? low : range.high())) / 2;
  }

  /**
   * Chance that the fruit ripens before the first autumn frost of a usual year.
   *
   * @param frostFreeDays days from the last spring to the first autumn frost, or null when unknown
   * @return empty when the season or the variety's ripening is unknown
   */
  public OptionalDouble chanceRipens(String varietyId, @Nullable Double frostFreeDays) {
    Need need = need(varietyId).filter(Need::known).orElse(null);
    if (need == null || frostFreeDays == null) return OptionalDouble.empty();
    return OptionalDouble.of(
        NormalDistribution.of(need.days, need.sd).cumulativeProbability(frostFreeDays));
  }

  private static Estimate.@Nullable Interval offset(TraitBook book, String variety) {
    return (Estimate.Interval)
        book.estimate(new Subject.OfVariety(Crop.APPLE, variety), "harvest-offset").orElse(null);
  }
}
