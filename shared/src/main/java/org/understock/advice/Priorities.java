package org.understock.advice;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.understock.site.Goal;

/**
 * The priorities, 0 to 5, that a purpose stands for. They are a judgement of what such growers
 * usually care about (common practice, no source), published with the contract so that anybody can
 * override them one by one.
 */
public final class Priorities {
  /**
   * Criteria that only a site's trouble brings up (wet soil, a pest): their priority is the same
   * for every purpose, their relevance is not.
   */
  private static final double TROUBLE = 4;

  private static final Map<Goal.Purpose, Map<String, Double>> TABLE =
      new java.util.EnumMap<>(Goal.Purpose.class);

  static {
    row("size", 5, 3, 3, 4, 1);
    row("early-cropping", 4, 5, 3, 4, 0.5);
    row("yield", 2, 5, 3, 2, 1);
    row("long-life", 2, 1, 3, 2, 5);
    row("anchorage", 3, 2, 4, 3, 3);
    row("support", 3, 1, 4, 2, 3);
    row("vigour-reserve", 2, 1, 4, 2, 3);
    row("vigour-match", 2, 2, 2, 2, 0.5);
    row("upkeep", 3, 2, 2, 3, 1);
    row("frost-at-bloom", 3, 5, 4, 3, 2);
    row("pollination", 4, 1, 2, 3, 1);
    row("variety-disease", 4, 2, 5, 4, 3);
    row("track-record", 2, 3, 2, 2, 3);
    row("availability", 3, 3, 3, 3, 3);
  }

  private Priorities() {}

  private static void row(
      String criterion,
      double home,
      double market,
      double lowInput,
      double teaching,
      double longLived) {
    double[] values = {home, market, lowInput, teaching, longLived};
    for (Goal.Purpose purpose : Goal.Purpose.values()) {
      TABLE
          .computeIfAbsent(purpose, p -> new LinkedHashMap<>())
          .put(criterion, values[purpose.ordinal()]);
    }
  }

  /** Priority of every preference under a purpose. */
  public static Map<String, Double> of(Goal.Purpose purpose) {
    Map<String, Double> all = new LinkedHashMap<>();
    for (Criterion criterion : Criteria.all())
      if (criterion.preference()) all.put(criterion.id(), of(purpose, criterion.id()));
    return all;
  }

  static double of(Goal.Purpose purpose, String criterion) {
    return Objects.requireNonNull(TABLE.get(purpose)).getOrDefault(criterion, TROUBLE);
  }
}
