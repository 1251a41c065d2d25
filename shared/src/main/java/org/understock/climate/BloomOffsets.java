package org.understock.climate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;

/**
 * By how many days the varieties of a crop bloom after its reference variety: the published days
 * where there are any, else the middle of the variety's published bloom group. What a group stands
 * for in days is fitted, a straight line over the order of the groups, to the crop's varieties that
 * have both; a crop with fewer than eight of those has no days for its groups.
 */
final class BloomOffsets {
  /** Fewer varieties with both a day and a group fit no line; a judgement. */
  private static final int LEAST_BOTH = 8;

  /** Fewer varieties with a day tell nothing of what the crop's others are like; a judgement. */
  private static final int LEAST_KNOWN = 3;

  /**
   * @param days after the crop's reference variety
   * @param standardError of the mean over places
   * @param between standard deviation from place to place
   * @param ofGroup whether only the group is published
   */
  record Offset(
      double days, double standardError, double between, boolean ofGroup, List<String> records) {
    double predictionSd() {
      return Math.hypot(standardError, between);
    }
  }

  private final Map<String, Offset> byVariety = new TreeMap<>();

  BloomOffsets(TraitBook book, Crop crop) {
    Map<String, Estimate.Levels> groups = new TreeMap<>();
    for (Variety variety : book.plants().varieties()) {
      if (variety.crop() != crop) continue;
      Subject subject = new Subject.OfVariety(crop, variety.id());
      if (book.estimate(subject, "bloom-day").orElse(null) instanceof Estimate.Interval day)
        byVariety.put(
            variety.id(),
            new Offset(
                day.mean(), day.standardError(), day.between(), false, day.support().records()));
      if (book.estimate(subject, "bloom-group").orElse(null) instanceof Estimate.Levels group)
        groups.put(variety.id(), group);
    }
    groups(groups);
  }

  private void groups(Map<String, Estimate.Levels> groups) {
    List<double[]> both = new ArrayList<>();
    groups.forEach(
        (variety, group) -> {
          Offset day = byVariety.get(variety);
          if (day != null) both.add(new double[] {place(group), day.days});
        });
    if (both.size() < LEAST_BOTH) return;
    double meanX = both.stream().mapToDouble(p -> p[0]).average().orElseThrow();
    double meanY = both.stream().mapToDouble(p -> p[1]).average().orElseThrow();
    double sxx = both.stream().mapToDouble(p -> (p[0] - meanX) * (p[0] - meanX)).sum();
    double sxy = both.stream().mapToDouble(p -> (p[0] - meanX) * (p[1] - meanY)).sum();
    double slope = sxx == 0 ? 0 : sxy / sxx;
    if (slope <= 0) return; // a later group that blooms no later tells nothing
    double residual =
        both.stream().mapToDouble(p -> Math.pow(p[1] - meanY - slope * (p[0] - meanX), 2)).sum();
    double variance = residual / (both.size() - 2);
    groups.forEach(
        (variety, group) -> {
          double x = place(group) - meanX;
          byVariety.putIfAbsent(
              variety,
              new Offset(
                  meanY + slope * x,
                  Math.sqrt(variance * (1.0 / both.size() + x * x / sxx)),
                  Math.sqrt(variance),
                  true,
                  group.support().records()));
        });
  }

  /** Mean place of a variety in the order of the groups. */
  private static double place(Estimate.Levels group) {
    double[] p = group.probabilities();
    double place = 0;
    for (int k = 0; k < p.length; k++) place += k * p[k];
    return place;
  }

  /** Empty where neither days nor a group that stands for days are published. */
  Optional<Offset> of(Variety variety) {
    return Optional.ofNullable(byVariety.get(variety.id()));
  }

  /**
   * What a variety of which nothing is published may be like: the spread over the crop's others;
   * empty with fewer than three of them.
   */
  Optional<Offset> ofUnknown() {
    if (byVariety.size() < LEAST_KNOWN) return Optional.empty();
    double mean = byVariety.values().stream().mapToDouble(Offset::days).average().orElseThrow();
    double squares =
        byVariety.values().stream().mapToDouble(o -> (o.days - mean) * (o.days - mean)).sum();
    return Optional.of(
        new Offset(mean, 0, Math.sqrt(squares / (byVariety.size() - 1)), false, List.of()));
  }
}
