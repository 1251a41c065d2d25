package org.understock.climate;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.evidence.Estimate;
import org.understock.evidence.Intervals;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Variety;

/**
 * What is published of the chill that a variety needs in one measure, as a distribution.
 *
 * @param requirement on the log scale
 */
public record ChillNeed(ChillMeasure measure, Estimate.Quantity requirement) {
  private static final double Z =
      NormalDistribution.of(0, 1).inverseCumulativeProbability(0.5 + Intervals.PERCENT / 200.0);

  /**
   * Needs of a variety in every measure in which one is published, the Dynamic Model's first, which
   * is a judgement. Figures in chill units count as Utah units only when all their records say that
   * they are; other models of that name are not comparable.
   */
  public static List<ChillNeed> of(TraitBook book, Variety variety) {
    Subject subject = new Subject.OfVariety(variety.crop(), variety.id());
    List<ChillNeed> needs = new ArrayList<>();
    for (ChillMeasure measure : ChillMeasure.values()) {
      Estimate estimate = book.estimate(subject, measure.trait()).orElse(null);
      if (!(estimate instanceof Estimate.Quantity quantity)
          || !quantity.unit().equals(measure.unit())) continue;
      if (measure == ChillMeasure.UTAH_UNITS && !saidToBeUtah(book, quantity)) continue;
      needs.add(new ChillNeed(measure, quantity));
    }
    return needs;
  }

  private static boolean saidToBeUtah(TraitBook book, Estimate.Quantity quantity) {
    return quantity.support().records().stream()
        .allMatch(id -> book.record(id).map(r -> r.note().contains("Utah")).orElse(false));
  }

  /** Median. */
  public double likely() {
    return Math.exp(requirement.logMean());
  }

  /** 10th percentile of what it needs in one winter at one place. */
  public double low() {
    return Math.exp(requirement.logMean() - Z * ChillMatch.sdLog(requirement));
  }

  /** 90th percentile. */
  public double high() {
    return Math.exp(requirement.logMean() + Z * ChillMatch.sdLog(requirement));
  }

  /** Chance that it is met in a winter like those of a place; empty without a complete one. */
  public OptionalDouble chanceMet(Winters winters) {
    double[] chill = winters.complete(measure);
    return chill.length == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(ChillMatch.chanceMet(requirement, chill));
  }
}
