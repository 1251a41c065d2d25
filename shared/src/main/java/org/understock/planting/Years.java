package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.advice.Pairing;
import org.understock.growth.Expectations;
import org.understock.growth.YearYield;
import org.understock.trait.Refusal;

/**
 * The crops of a planting over the years.
 *
 * <p>Trees of one pairing are early or late, short- or long-lived, heavy or light together, because
 * what is not known is how the pairing does at this place; so their spreads add up and do not even
 * out. Pairings that share the stock or the variety share its part of the score.
 */
public final class Years {
  /**
   * The part that the stock has in a pairing's score, as advice splits it; squares of the two add
   * up to 1. A judgement.
   */
  private static final double STOCK_SHARE = 0.9;

  private static final double VARIETY_SHARE = Math.sqrt(1 - STOCK_SHARE * STOCK_SHARE);
  private static final int DRAWS = 4000;
  private static final int SCORES = 3;

  /** Most years of an answer. */
  public static final int MOST = 60;

  private final Expectations.Course[][] courses;
  private final int[] counts;

  private Years(List<Pairing> pairings, int[] counts) {
    this.counts = counts;
    Map<String, double[][]> known = new HashMap<>();
    courses = new Expectations.Course[pairings.size()][DRAWS];
    for (int k = 0; k < courses.length; k++) {
      Expectations tree = pairings.get(k).expectations();
      double[][] stock =
          known.computeIfAbsent("stock " + pairings.get(k).stock().id(), Years::draw);
      double[][] variety =
          known.computeIfAbsent("variety " + pairings.get(k).variety().id(), Years::draw);
      for (int d = 0; d < DRAWS; d++) {
        courses[k][d] =
            tree.course(
                score(stock, variety, 0, d),
                score(stock, variety, 1, d),
                score(stock, variety, 2, d));
      }
    }
  }

  private static double score(double[][] stock, double[][] variety, int which, int draw) {
    return STOCK_SHARE * stock[which][draw] + VARIETY_SHARE * variety[which][draw];
  }

  /** Number of ways that things may go; two plantings' ways of the same number go together. */
  static int draws() {
    return DRAWS;
  }

  /** How a pairing's trees go through their years in one draw. */
  Expectations.Course course(int pairing, int draw) {
    return courses[pairing][draw];
  }

  public static Years of(PlantingPlan plan) {
    return new Years(
        plan.pairings(), plan.order().stream().mapToInt(PlantingPlan.Ordered::count).toArray());
  }

  /**
   * Evenly spread normal scores in an order that is the name's own, so that two names are as good
   * as independent.
   */
  private static double[][] draw(String name) {
    NormalDistribution normal = NormalDistribution.of(0, 1);
    SplittableRandom random = new SplittableRandom(name.hashCode());
    double[][] scores = new double[SCORES][DRAWS];
    for (double[] row : scores) {
      for (int d = 0; d < DRAWS; d++)
        row[d] = normal.inverseCumulativeProbability((d + 0.5) / DRAWS);
      for (int d = DRAWS - 1; d > 0; d--) {
        int other = random.nextInt(d + 1);
        double held = row[d];
        row[d] = row[other];
        row[other] = held;
      }
    }
    return scores;
  }

  /**
   * The planting's crop year by year, in kg: 10th, 50th and 90th percentile of each year by itself.
   *
   * @param years how many, 1 to 60
   */
  public List<YearYield> yearly(int years) {
    if (years < 1 || years > MOST)
      throw new Refusal.OutOfRange("years", years, "between 1 and " + MOST);
    List<YearYield> list = new ArrayList<>(years);
    for (int year = 1; year <= years; year++) {
      double[] crop = crop(year);
      list.add(
          new YearYield(year, percentile(crop, 0.1), percentile(crop, 0.5), percentile(crop, 0.9)));
    }
    return list;
  }

  private double[] crop(int year) {
    double[] crop = new double[DRAWS];
    for (int k = 0; k < counts.length; k++) {
      if (counts[k] == 0) continue;
      for (int d = 0; d < DRAWS; d++) crop[d] += counts[k] * courses[k][d].cropKg(year);
    }
    Arrays.sort(crop);
    return crop;
  }

  /** Years at the beginning in which the planting more likely than not bears nothing. */
  public int withoutCrop() {
    for (int year = 1; year <= MOST; year++) if (percentile(crop(year), 0.5) > 0) return year - 1;
    return MOST;
  }

  /**
   * Trees for a yearly need, mixed as in the plan.
   *
   * @param trees that more likely than not bear it in that year
   * @param safeTrees that bear it with nine chances in ten; null where the lowest tenth bears
   *     nothing yet
   */
  public record Enough(int trees, @org.jspecify.annotations.Nullable Integer safeTrees) {}

  /**
   * How many trees bear so much from a year on.
   *
   * @param kg 0.1 to 10 million kg a year
   * @param fromYear 1 to 60
   * @throws Refusal.Conflict when a tree more likely than not bears nothing in that year
   */
  public Enough enough(double kg, int fromYear) {
    Plot.range("need.kgPerYear", kg, 0.1, 1e7, "kg");
    if (fromYear < 1 || fromYear > MOST)
      throw new Refusal.OutOfRange("need.fromYear", fromYear, "between 1 and " + MOST);
    double[] crop = crop(fromYear);
    double all = Arrays.stream(counts).sum();
    double likely = percentile(crop, 0.5) / all;
    double low = percentile(crop, 0.1) / all;
    if (!(likely > 0)) {
      throw new Refusal.Conflict(
          "need.fromYear",
          "in year "
              + fromYear
              + " these trees more likely than not bear nothing yet; their first crop "
              + "comes in year "
              + (withoutCrop() + 1)
              + ", or take a stock that bears earlier");
    }
    return new Enough(whole(kg / likely), low > 0 ? Integer.valueOf(whole(kg / low)) : null);
  }

  private static int whole(double trees) {
    return (int) Math.min(Integer.MAX_VALUE, Math.max(1, Math.ceil(trees - 1e-9)));
  }

  private static double percentile(double[] sorted, double p) {
    double at = p * sorted.length - 0.5;
    int below = (int) Math.floor(at);
    return sorted[below] + (at - below) * (sorted[below + 1] - sorted[below]);
  }
}
