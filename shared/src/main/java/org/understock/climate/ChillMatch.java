package org.understock.climate;

import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.evidence.Estimate;
import org.understock.site.Site;

/**
 * Chance that a site's winter chill meets what a variety needs. The requirement is a distribution
 * (pooled published figures), the site's figure a number in the same measure: chilling hours and
 * chill portions are never turned into one another, since their ratio ran from 0 to 34 over 5078
 * stations (Luedeling and Brown 2011).
 */
public final class ChillMatch {
  /*
   * A requirement measured at one place varies from year to year. The smallest spread that we allow a requirement is the root mean square of
   * the coefficients of variation that one compilation prints beside 15 means in chill portions (source ucdavis-chill-portions: for example
   * apricot Currot 34.3 with SD 6.1, nectarine Fantasia 41.7 with SD 8.1, apricot Bergeron 64.8 with SD 2.7): 0.11. It is used for hours
   * too, for which no spreads are at hand.
   */
  private static final double LEAST_SD_LOG = 0.11;

  private ChillMatch() {}

  /**
   * Chance that a variety's need is no more than the chill of a usual winter at the site, in the
   * measure that the site is given in. Empty when the site's chill is unknown or no requirement is
   * known in that measure.
   *
   * @param hours requirement in chilling hours
   * @param portions requirement in chill portions
   */
  public static OptionalDouble chanceMet(
      Site site, Optional<Estimate> hours, Optional<Estimate> portions) {
    if (site.chillHours() != null && hours.isPresent())
      return OptionalDouble.of(chanceMet(quantity(hours.get(), "h"), site.chillHours()));
    if (site.chillPortions() != null && portions.isPresent()) {
      return OptionalDouble.of(
          chanceMet(quantity(portions.get(), "portions"), site.chillPortions()));
    }
    return OptionalDouble.empty();
  }

  /**
   * Chance that the requirement is no more than the winter's chill.
   *
   * @param requirement in the measure of {@code chill}
   * @param chill chilling hours or portions of one winter, 0 or more
   */
  public static double chanceMet(Estimate.Quantity requirement, double chill) {
    if (!(chill > 0)) return 0;
    return NormalDistribution.of(requirement.logMean(), sdLog(requirement))
        .cumulativeProbability(Math.log(chill));
  }

  /** Standard deviation of the log of a requirement in one winter at one place. */
  public static double sdLog(Estimate.Quantity requirement) {
    return Math.max(LEAST_SD_LOG, requirement.predictionSdLog());
  }

  /**
   * Chance that the requirement is met in a winter drawn from the given ones; needs at least one.
   */
  public static double chanceMet(Estimate.Quantity requirement, double[] chillOfWinters) {
    if (chillOfWinters.length == 0)
      throw new org.understock.trait.Refusal.OutOfRange("winters", 0, "1 or more");
    double sum = 0;
    for (double chill : chillOfWinters) sum += chanceMet(requirement, chill);
    return sum / chillOfWinters.length;
  }

  private static Estimate.Quantity quantity(Estimate estimate, String unit) {
    if (estimate instanceof Estimate.Quantity quantity && quantity.unit().equals(unit))
      return quantity;
    throw new IllegalArgumentException(
        "a chill requirement in " + unit + " is expected, not " + estimate);
  }
}
