package org.understock.growth;

import java.util.ArrayList;
import java.util.List;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Variety;

/** Turns what is said of a variety's vigour and habit into a factor on lengths. */
final class VarietyVigour {
  /*
   * Height on one stock, weak : moderate : strong : very strong. Weak against strong: on M.7 a weak variety makes 2.4-3.0 m and a strong one
   * 3.0-3.7 m (common practice, no source), middles 2.7 and 3.35, ratio 0.81. Measured beside it: 'Tsugaru' has 0.70 of the top weight of vigorous
   * 'Fuji' on M.9 (fukuda-1991-m9-partitioning), 0.89 in length if weight goes with the cube. The outer step is the same again (judgement).
   */
  private static final double[] LENGTH = {0.86, 1.0, 1.07, 1.15};

  /** How common the levels are among varieties; a judgement. */
  private static final double[] POPULATION = {0.15, 0.45, 0.3, 0.1};

  /** Doubt about one word on vigour: this share falls back on the population. */
  private static final double DOUBT = 0.1;

  /** Spread inside a level. */
  private static final double INSIDE_SD = 0.05;

  /*
   * Spur-type 'Delicious' reaches 65-85 % of the size of the non-spur tree (domoto-cummins-1998); with other varieties less, no figure. Length
   * as the cube root of size: 0.87-0.95. Half-way types are taken half-way.
   */
  private static final LogNormal SPUR = LogNormal.between(0.87, 0.97);
  private static final LogNormal SEMI_SPUR = LogNormal.between(0.93, 1.0);

  private VarietyVigour() {}

  static VarietyGrowth of(TraitBook book, Variety variety) {
    Subject subject = new Subject.OfVariety(variety.crop(), variety.id());
    List<String> records = new ArrayList<>();
    double[] p = POPULATION;
    if (Estimates.of(book, subject, "vigor") instanceof Estimate.Levels levels
        && levels.alpha().length == LENGTH.length) {
      p = sharpened(levels.alpha());
      records.addAll(levels.support().records());
    }
    LogNormal factor = mixture(p);
    boolean spur = false;
    if (Estimates.of(book, subject, "growth-habit") instanceof Estimate.Named habit) {
      List<String> words = List.of(habit.best().split("[ ,]+"));
      spur = words.contains("spur");
      if (spur) factor = factor.times(SPUR);
      else if (words.contains("semi-spur")) factor = factor.times(SEMI_SPUR);
      if (spur || words.contains("semi-spur")) records.addAll(habit.support().records());
    }
    return new VarietyGrowth(variety.id(), factor, spur, !records.isEmpty(), records);
  }

  static VarietyGrowth unknown(String variety) {
    return new VarietyGrowth(variety, mixture(POPULATION), false, false, List.of());
  }

  /**
   * Level probabilities without the flat prior of the rating pool. That prior stands for "any
   * level", which is right for a stranger on a scale of resistance; here the population of
   * varieties is known to cluster in the middle, and it is the better thing to fall back on.
   */
  private static double[] sharpened(double[] alpha) {
    double least = Double.MAX_VALUE;
    for (double a : alpha) least = Math.min(least, a);
    double sum = 0;
    for (double a : alpha) sum += a - least;
    double[] p = new double[alpha.length];
    for (int k = 0; k < p.length; k++)
      p[k] =
          sum > 0 ? (1 - DOUBT) * (alpha[k] - least) / sum + DOUBT * POPULATION[k] : POPULATION[k];
    return p;
  }

  private static LogNormal mixture(double[] p) {
    double mean = 0;
    for (int k = 0; k < p.length; k++) mean += p[k] * Math.log(LENGTH[k]);
    double variance = INSIDE_SD * INSIDE_SD;
    for (int k = 0; k < p.length; k++) variance += p[k] * Math.pow(Math.log(LENGTH[k]) - mean, 2);
    return new LogNormal(mean, Math.sqrt(variance));
  }
}
