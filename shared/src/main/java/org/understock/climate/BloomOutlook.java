package org.understock.climate;

import java.time.MonthDay;
import java.util.Optional;
import org.understock.plant.Variety;
import org.understock.site.Word;
import org.understock.wording.Sentence;

/**
 * When a variety is expected to bloom at a place, and what frost then does.
 *
 * @param basis what the days rest on
 * @param fullBloom middle of the days
 * @param spreadDays standard deviation of the day in a year
 * @param model the fitted model; only for basis chill-then-heat
 * @param frost empty where the crop's critical temperatures are not published, or no year has all
 *     nights around bloom
 * @param text one sentence on how the days were come by
 */
public record BloomOutlook(
    Basis basis,
    MonthDay fullBloom,
    double spreadDays,
    Optional<ChillThenHeat> model,
    Optional<FrostRisk> frost,
    Sentence text) {

  /** What bloom days rest on. */
  public enum Basis implements Word {
    /** Each year's day from the model, with the heat fitted to days seen at the place. */
    CHILL_THEN_HEAT,

    /** The days seen, or the usual day told; the same spread in every other year. */
    TOLD,

    /** Another variety's told day, and the published difference in days between the two. */
    OTHER_VARIETY,

    /** Another variety's told day, and what the two bloom groups stand for in days. */
    BLOOM_GROUP
  }

  static BloomOutlook of(
      ExpectedBloom bloom,
      Variety variety,
      TemperatureSeries series,
      CriticalTemperatures temperatures) {
    boolean own = bloom.basis() == Basis.TOLD || bloom.basis() == Basis.CHILL_THEN_HEAT;
    // What was told of a variety itself is taken as it was told.
    double doubt = own ? 0 : bloom.doubtDays();
    return new BloomOutlook(
        bloom.basis(),
        bloom.fullBloom(),
        Math.hypot(bloom.spreadDays(), doubt),
        bloom.model(),
        FrostRisk.of(temperatures, variety.crop(), series, bloom.days().doubted(doubt)),
        bloom.text());
  }
}
