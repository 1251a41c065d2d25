package org.understock.evidence;

import org.jspecify.annotations.Nullable;

/**
 * Where and when a value was measured. All parts may be missing.
 *
 * @param trial id of the trial
 * @param site place as printed; {@code all-sites-mean} for a mean over sites
 * @param scion variety name(s) as printed
 * @param trees number of trees behind the mean
 * @param spread spread of the mean
 * @param interstem for compatibility: the stock to put between
 * @param ageYears age of the trees at the measurement, where a source states age instead of years
 * @param relativeTo for bloom and harvest given as days or weeks from another variety: that
 *     variety's name as printed
 */
public record Context(
    @Nullable String trial,
    @Nullable String site,
    @Nullable String scion,
    @Nullable Integer plantedYear,
    @Nullable Integer measuredYear,
    @Nullable Integer trees,
    @Nullable Spread spread,
    @Nullable String interstem,
    @Nullable Integer ageYears,
    @Nullable String relativeTo) {

  public static final Context NONE =
      new Context(null, null, null, null, null, null, null, null, null, null);

  /** Site word of a row that is a mean over a trial's sites. */
  public static final String ALL_SITES = "all-sites-mean";

  /**
   * Spread of a mean as printed.
   *
   * @param kind SE (of the mean), SD (between trees), HSD (Tukey), LSD (Fisher)
   * @param value in the unit of the mean
   */
  public record Spread(Kind kind, double value) {
    public enum Kind {
      SE,
      SD,
      HSD,
      LSD
    }
  }
}
