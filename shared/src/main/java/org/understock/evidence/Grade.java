package org.understock.evidence;

import java.util.Collection;
import java.util.DoubleSummaryStatistics;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * How much an estimate can bear, A (most) to D. Computed from its records by this rule, never typed
 * in:
 *
 * <ul>
 *   <li><b>A</b>: a trial over several sites, and two or more voices;
 *   <li><b>B</b>: any replicated trial, or three or more published voices;
 *   <li><b>C</b>: a published statement;
 *   <li><b>D</b>: growers' observations, common practice or memory only.
 * </ul>
 *
 * Sources of one origin are one voice. What only an abstract tells of (the locator says so) is a
 * published statement, not a trial that could be looked into. Where published voices contradict
 * each other, two or more levels or more than a factor of two apart, the estimate is one grade
 * lower, but not below C for that. An estimate borrowed from a stock's parent is one grade lower.
 */
public enum Grade {
  A,
  B,
  C,
  D;

  /** Factor between two voices' quantities from which they contradict each other. */
  private static final double FAR_APART = 2;

  /**
   * @param trait the one that the records are about
   * @param sources all sources by id
   */
  public static Grade of(
      Collection<TraitRecord> records, Trait trait, Map<String, Source> sources) {
    Grade grade = undisputed(records, sources);
    return grade.compareTo(C) < 0 && disputed(records, trait, sources) ? grade.lower() : grade;
  }

  private static boolean disputed(
      Collection<TraitRecord> records, Trait trait, Map<String, Source> sources) {
    Map<String, double[]> byVoice =
        new HashMap<>(); // sum and number of each voice's places on the scale
    for (TraitRecord record : records) {
      if (record.method() == Method.FROM_MEMORY || record.method() == Method.COMMON_PRACTICE)
        continue;
      double place = place(record.value(), trait);
      if (Double.isNaN(place)) continue;
      double[] sum = byVoice.computeIfAbsent(voice(record, sources), v -> new double[2]);
      sum[0] += place;
      sum[1]++;
    }
    DoubleSummaryStatistics places =
        byVoice.values().stream().mapToDouble(sum -> sum[0] / sum[1]).summaryStatistics();
    return places.getCount() > 1
        && places.getMax() - places.getMin()
            >= (trait.scale() == Trait.Scale.LEVELS ? 2 : Math.log(FAR_APART));
  }

  /**
   * A level's number, or a positive quantity's logarithm; NaN where being apart is no contradiction
   * (contrasts between trials, names).
   */
  private static double place(Value value, Trait trait) {
    if (trait.scale() == Trait.Scale.LEVELS && value instanceof Value.Level level)
      return trait.levels().indexOf(level.level());
    if (trait.scale() != Trait.Scale.QUANTITY) return Double.NaN;
    if (value instanceof Value.Quantity quantity) return Math.log(quantity.value());
    return value instanceof Value.Range range
            && range.low() != null
            && range.high() != null
            && range.low() > 0
        ? (Math.log(range.low()) + Math.log(range.high())) / 2
        : Double.NaN;
  }

  private static Grade undisputed(Collection<TraitRecord> records, Map<String, Source> sources) {
    boolean multiSite = false;
    boolean trial = false;
    Set<String> published = new HashSet<>();
    for (TraitRecord record : records) {
      boolean read = !record.locator().toLowerCase(Locale.ROOT).startsWith("abstract");
      switch (record.method()) {
        case REPLICATED_MULTI_SITE -> {
          multiSite |= read;
          trial |= read;
        }
        case REPLICATED_SINGLE_SITE -> trial |= read;
        case EXPERT_RATING, BREEDER_STATEMENT -> {}
        case GROWER_OBSERVATION, COMMON_PRACTICE, FROM_MEMORY -> {
          continue;
        }
      }
      published.add(voice(record, sources));
    }
    if (multiSite && published.size() >= 2) return A;
    if (trial || published.size() >= 3) return B;
    return published.isEmpty() ? D : C;
  }

  /** Id under which a record's source speaks: its origin's, where it restates one. */
  public static String voice(TraitRecord record, Map<String, Source> sources) {
    Source source = sources.get(record.source());
    return source == null || source.origin() == null ? record.source() : source.origin();
  }

  Grade lower() {
    return this == D ? D : values()[ordinal() + 1];
  }
}
