package org.understock.climate;

import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;

/**
 * Chance that a plant comes through the coldest night of a usual winter.
 *
 * <p>A variety's or stock's limit is published as a temperature or as the lower bound of the
 * coldest hardiness zone it is grown in. Zone lists disagree by one zone (apple Honeycrisp: zone 3
 * in one, zone 4 in another, sources uvm-cold-fruit and umaine-varieties), so one whole zone either
 * way is taken as a 90 % interval of such a statement.
 */
public final class Hardiness {
  /** One whole USDA zone, 10 °F. */
  private static final double ZONE_C = 10 * 5 / 9.0;

  /** Half-width of a 90 % interval of the normal distribution in standard deviations. */
  private static final double Z_90_PERCENT = 1.6448536269514722;

  /** Standard deviation of a limit that is known by its zone: 3.4 °C. */
  private static final double ZONE_SD_C = ZONE_C / Z_90_PERCENT;

  /*
   * Words for a stock's winter hardiness as temperatures. Two words are tied to zones by sources that use both: Ussurian pear "hardiest of all,
   * zone 3" is very good (ndsu-ussurian-pear), and callery pear "not hardy enough for zone 4a" is fair, so zone 5 (jeh-1994-pear-cold). Good lies
   * between them, zone 4, and poor one step below fair, zone 6: these two are our judgement. It is a mapping of words between crops, and carries
   * the same one-zone error as everything else here. Lower bounds of the zones: -40.0, -34.4, -28.9, -23.3 °C.
   */
  private static final List<String> LEVELS = List.of("poor", "fair", "good", "very-good");
  private static final double POOR_C = new HardinessZone(10).minimumC();

  private Hardiness() {}

  /**
   * Chance that the wood survives the coldest night of a usual winter.
   *
   * @param coldestNightC air temperature in °C, or null when unknown
   * @param limit estimate of trait {@code min-winter-temperature} in degC, or null when unknown
   * @return empty when either is unknown
   */
  public static OptionalDouble chanceSurvives(
      @Nullable Double coldestNightC, Estimate.@Nullable Interval limit) {
    if (coldestNightC == null || limit == null) return OptionalDouble.empty();
    double sd = Math.hypot(limit.standardError(), Math.max(limit.between(), ZONE_SD_C));
    return OptionalDouble.of(above(coldestNightC, limit.mean(), sd));
  }

  /**
   * Chance that a stock survives, from the word for its winter hardiness.
   *
   * @param coldestNightC air temperature in °C, or null when unknown
   * @param winterCold estimate of trait {@code winter-cold}, levels poor to very-good, or null when
   *     unknown
   * @return empty when either is unknown
   */
  public static OptionalDouble chanceStockSurvives(
      @Nullable Double coldestNightC, Estimate.@Nullable Levels winterCold) {
    if (coldestNightC == null || winterCold == null) return OptionalDouble.empty();
    double[] probabilities = winterCold.probabilities();
    double chance = 0;
    for (int k = 0; k < probabilities.length; k++) {
      chance +=
          probabilities[k] * above(coldestNightC, limitOf(winterCold.levels().get(k)), ZONE_SD_C);
    }
    return OptionalDouble.of(chance);
  }

  /**
   * Chance that more than half of the roots survive, from the root temperature that kills half of
   * them (LT50, trait {@code root-lt50}).
   *
   * <p>The temperature is that of the soil around the roots. It is not derived from the air: snow,
   * mulch, sod and soil moisture part the two by ten degrees and more, and nothing at hand says by
   * how much at a given site. Without a soil temperature the answer is empty.
   *
   * @param coldestRootZoneC lowest soil temperature in the root zone in °C, or null when unknown
   */
  public static OptionalDouble chanceRootsSurvive(
      @Nullable Double coldestRootZoneC, Estimate.@Nullable Interval rootLt50) {
    if (coldestRootZoneC == null || rootLt50 == null) return OptionalDouble.empty();
    double sd = rootLt50.predictionSd();
    if (sd == 0) return OptionalDouble.of(coldestRootZoneC >= rootLt50.mean() ? 1 : 0);
    return OptionalDouble.of(above(coldestRootZoneC, rootLt50.mean(), sd));
  }

  /**
   * Temperature that stands for a word for a stock's winter hardiness, in °C.
   *
   * @throws org.understock.trait.Refusal.Unknown when it is not one of poor, fair, good, very-good
   */
  public static double limitOf(String winterColdLevel) {
    int at = LEVELS.indexOf(winterColdLevel);
    if (at < 0)
      throw new org.understock.trait.Refusal.Unknown("winter-cold", winterColdLevel, LEVELS);
    return POOR_C - ZONE_C * at;
  }

  private static double above(double temperatureC, double limitC, double sdC) {
    return NormalDistribution.of(limitC, sdC).cumulativeProbability(temperatureC);
  }
}
