package org.understock.pollination;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.plant.Crop;

/**
 * Overlap of two blooms, from the difference of their usual full-bloom days where both have one on
 * the crop's common scale, else from their bloom classes. Where days say good and classes poor, or
 * the reverse, the sources saw them under different springs and the answer is the middle one:
 * Paulared and Fuji do not meet in North Carolina (nc-hil-302) and bloom a day apart in Nova Scotia
 * (watts-2021-abc).
 *
 * <p>A bloom lasts 7 to 15 days. Extension texts print that range (read in retellings of one text,
 * so it is one voice); ten years of sweet cherry at Ullensvang, Norway, lie at its cool end: full
 * bloom 3 days after the first flowers, the end 14 days after them (Meland and others 2017, Acta
 * Horticulturae 1162, Burlat and Van). Two varieties whose full bloom lies d days apart share 7 - d
 * days of a short one: up to 3 days apart at least half of it, up to 6 days at least one day,
 * beyond that nothing to count on. Vineland, Ontario, gives the same three days as the spread over
 * which overlap is rarely the limit (source ontario-02-037-cherry). One class of the five-class
 * order is 2.1 to 2.3 days in sweet cherry (34 and 20 varieties with both a class from
 * osu-cherry-chart and days from wenden-2016-cherry, vittrup-1996-cherry, luedeling-2024-phenology
 * or rosbreed-cherry-phenotypes; line fitted here, residual 1.6 to 1.8 days).
 */
final class Bloom {
  /** Up to this many days apart at least half of a seven-day bloom is shared. */
  private static final double GOOD_DAYS = 3;

  /** Up to this many days apart a seven-day bloom is shared for a day. */
  private static final double SOME_DAYS = 6;

  /**
   * Apple days come mostly from watts-2021-abc, whose model shrinks the differences. For the
   * varieties that luedeling-2024-phenology has too (Boskoop -3.0 against -1.9, Topaz -2.5 against
   * -1.5, Jonagold -1.5 against -1.0) they are about two thirds as wide, so the bands are narrowed
   * alike.
   */
  private static final double APPLE_SHRINKAGE = 2 / 3.0;

  /** Shortest and longest usual bloom in days, see above. */
  static final int SHORT_BLOOM_DAYS = 7;

  static final int LONG_BLOOM_DAYS = 15;

  /**
   * As many days are to be shared. "An overlap of several days" is asked for (NIAB, apple best
   * practice guide, page on dormancy and synchrony of flowering); that several means three is a
   * judgement.
   */
  static final int ENOUGH_DAYS = 3;

  private Bloom() {}

  static Overlap overlap(Flower a, Flower b) {
    if (a == b) return Overlap.GOOD;
    Crop crop = a.variety().crop();
    if (crop != b.variety().crop()) return Overlap.UNKNOWN;
    Overlap byDays =
        a.bloomDay() != null && b.bloomDay() != null
            ? ofDays(crop, Math.abs(a.bloomDay().mean() - b.bloomDay().mean()))
            : Overlap.UNKNOWN;
    Overlap byClasses =
        a.bloomClass() >= 0 && b.bloomClass() >= 0
            ? ofClasses(Math.abs(a.bloomClass() - b.bloomClass()))
            : Overlap.UNKNOWN;
    if (byDays == Overlap.UNKNOWN) return byClasses;
    return opposed(byDays, byClasses) || opposed(byClasses, byDays) ? Overlap.SOME : byDays;
  }

  private static boolean opposed(Overlap one, Overlap other) {
    return one == Overlap.GOOD && other == Overlap.POOR;
  }

  static Overlap ofDays(Crop crop, double daysApart) {
    double scale = crop == Crop.APPLE ? APPLE_SHRINKAGE : 1;
    return daysApart <= GOOD_DAYS * scale
        ? Overlap.GOOD
        : daysApart <= SOME_DAYS * scale ? Overlap.SOME : Overlap.POOR;
  }

  /**
   * Same class good, neighbouring class some, more apart doubtful (common practice; the one-class
   * rule is from memory).
   */
  static Overlap ofClasses(int classesApart) {
    return classesApart == 0 ? Overlap.GOOD : classesApart == 1 ? Overlap.SOME : Overlap.POOR;
  }

  /**
   * Chance that the two share at least {@link #ENOUGH_DAYS} days of bloom; NaN when the days of one
   * of them are not known. The difference of their days of full bloom is taken as normal with both
   * varieties' standard deviations at a new place. How long the bloom lasts depends on the spring
   * and is therefore the same for both; every length from 7 to 15 days counts alike (a judgement:
   * the range is published, its shape is not).
   */
  static double chanceOfOverlap(Flower a, Flower b) {
    if (a == b) return 1;
    if (a.variety().crop() != b.variety().crop() || a.bloomDay() == null || b.bloomDay() == null)
      return Double.NaN;
    double scale = a.variety().crop() == Crop.APPLE ? APPLE_SHRINKAGE : 1;
    double apart = a.bloomDay().mean() - b.bloomDay().mean();
    double sd = Math.hypot(a.bloomDay().predictionSd(), b.bloomDay().predictionSd());
    double sum = 0;
    for (int days = SHORT_BLOOM_DAYS; days <= LONG_BLOOM_DAYS; days++)
      sum += within((days - ENOUGH_DAYS) * scale, apart, sd);
    return sum / (LONG_BLOOM_DAYS - SHORT_BLOOM_DAYS + 1);
  }

  private static double within(double reach, double apart, double sd) {
    if (sd == 0) return Math.abs(apart) <= reach ? 1 : 0;
    return NormalDistribution.of(apart, sd).probability(-reach, reach);
  }
}
