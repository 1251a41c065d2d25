package org.understock.advice;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.site.MeasuredWinters;
import org.understock.site.Site;
import org.understock.wording.Sentence;

/**
 * The site's winter in each draw: the figure told of a usual one, the same in all draws, or else
 * one of the measured winters. In a draw all plants meet the same winter, and its chill and its
 * coldest night belong together. A told figure goes before what was measured.
 */
final class WinterDraws {
  private static final String NAME = "winter of the site";

  private final Site site;

  WinterDraws(Site site) {
    this.site = site;
  }

  /** The coldest night in each draw, °C; null when nothing tells it. */
  double @Nullable [] nightsC() {
    if (site.coldestNightC() != null) return Side.constant(site.coldestNightC());
    return site.winters() == null ? null : drawn(site.winters().coldestNightsC());
  }

  /** The coldest night told, or the mean of those measured. */
  @Nullable Double usualNightC() {
    if (site.coldestNightC() != null || site.winters() == null) return site.coldestNightC();
    return site.winters().coldestNightsC().stream().mapToDouble(x -> x).average().orElseThrow();
  }

  boolean chillKnown() {
    return site.chillHours() != null || site.chillPortions() != null || site.winters() != null;
  }

  /** Whether only one measure of chill was told, so that all varieties are held against that. */
  private boolean told() {
    return site.chillHours() != null || site.chillPortions() != null;
  }

  /**
   * Whether a variety is held against chilling hours. Of measured winters both measures are known:
   * then it is chill portions, unless the variety's need is on record in hours alone.
   */
  boolean inHours(VarietyRow variety) {
    return told()
        ? site.chillHours() != null
        : !variety.portions().known() && variety.hours().known();
  }

  /** What a variety needs, in the measure in which it is held against the site. */
  Chilling need(VarietyRow variety) {
    return inHours(variety) ? variety.hours() : variety.portions();
  }

  /**
   * Natural log of the chill in each draw, in the measure in which the variety is held against the
   * site.
   */
  double[] logChill(VarietyRow variety) {
    double[] chill = told() ? Side.constant(told(site)) : drawn(measured(inHours(variety)));
    for (int d = 0; d < Draws.COUNT; d++) chill[d] = Math.log(Math.max(chill[d], 1));
    return chill;
  }

  /** The chill told, or a quantile of what was measured. */
  double chill(boolean hours, double share) {
    return told()
        ? told(site)
        : sorted(measured(hours))[(int) Math.round(share * (measured(hours).size() - 1))];
  }

  /** What the site brings, to begin a sentence with. */
  Sentence because(boolean hours) {
    String measure = hours ? "hours" : "portions";
    if (told()) return Sentence.of("site.winter." + measure, "chill", Math.round(told(site)));
    double[] chill = sorted(measured(hours));
    return Sentence.of(
        "site.winters." + measure,
        "winters",
        chill.length,
        "low",
        Math.round(chill[0]),
        "high",
        Math.round(chill[chill.length - 1]));
  }

  /**
   * The coldest night, to begin a sentence with.
   *
   * @param night {@link #usualNightC}
   */
  Sentence coldest(double night, Units units) {
    if (site.coldestNightC() != null)
      return Sentence.of("site.night", "low", units.temperature(night));
    double[] nights = sorted(measured().coldestNightsC());
    return Sentence.of(
        "site.nights",
        "winters",
        nights.length,
        "low",
        units.temperature(nights[0]),
        "high",
        units.temperature(nights[nights.length - 1]));
  }

  private static double told(Site site) {
    return site.chillHours() != null
        ? site.chillHours()
        : java.util.Objects.requireNonNull(site.chillPortions());
  }

  private List<Double> measured(boolean hours) {
    return hours ? measured().chillHours() : measured().chillPortions();
  }

  private MeasuredWinters measured() {
    return java.util.Objects.requireNonNull(site.winters());
  }

  /** Every winter in as many draws as any other, but for one. */
  private static double[] drawn(List<Double> winters) {
    double[] x = Draws.uniform(NAME);
    for (int d = 0; d < Draws.COUNT; d++) x[d] = winters.get((int) (x[d] * winters.size()));
    return x;
  }

  private static double[] sorted(List<Double> values) {
    double[] x = values.stream().mapToDouble(v -> v).toArray();
    Arrays.sort(x);
    return x;
  }
}
