package org.understock.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Splits a pairing's score into signed points by criterion against the mean of the considered
 * pairings. Preferences are split by their mean of weight times satisfaction; what limits cost is
 * told apart among the limits in proportion to the logarithm of their factors. The points add up to
 * score minus mean exactly, also after rounding to a tenth (largest remainders).
 */
final class Effects {
  private final Judging judging;

  /**
   * Criteria among which points are split: those that take part, then limits as they are met with.
   */
  private final List<Criterion> criteria = new ArrayList<>();

  private final Map<Criterion, Integer> index = new IdentityHashMap<>();
  private final double[] means = new double[Criteria.all().size()];
  private final int[] kinds = new int[Field.KINDS];
  private final int match;
  private final int available;

  Effects(Judging judging) {
    this.judging = judging;
    for (Active active : judging.active) slot(active.criterion());
    kinds[Field.SIZE] = index.getOrDefault(Criteria.SIZE, -1);
    kinds[Field.EARLY] = index.getOrDefault(Criteria.EARLY, -1);
    kinds[Field.YIELD] = index.getOrDefault(Criteria.YIELD, -1);
    kinds[Field.LIFE] = index.getOrDefault(Criteria.LIFE, -1);
    match = index.getOrDefault(Criteria.MATCH, -1);
    available = index.getOrDefault(Criteria.AVAILABILITY, -1);
    double[] shares = new double[means.length];
    for (int i : judging.order) {
      shares(i, shares);
      for (int c = 0; c < means.length; c++) means[c] += shares[c];
    }
    for (int c = 0; c < means.length; c++) means[c] /= judging.order.size();
  }

  /**
   * Points of every criterion for a pairing, rounded to a tenth so that they add up to the rounded
   * score minus the rounded mean.
   */
  Map<Criterion, Double> of(int i) {
    double[] exact = shares(i, new double[means.length]);
    for (int c = 0; c < exact.length; c++) exact[c] = 1000 * (exact[c] - means[c]);
    exact = Arrays.copyOf(exact, criteria.size());
    long target = Math.round(1000 * judging.field.score[i]) - Math.round(1000 * judging.meanScore);
    long[] tenths = roundTo(exact, target);
    Map<Criterion, Double> effects = new LinkedHashMap<>();
    for (int c = 0; c < exact.length; c++) effects.put(criteria.get(c), tenths[c] / 10.0);
    return effects;
  }

  /**
   * Points that each criterion costs a pairing against one that meets them all; they add up to 100
   * minus its score.
   */
  Map<Criterion, Double> costs(int i) {
    double[] share = shares(i, new double[means.length]);
    Map<Criterion, Double> costs = new LinkedHashMap<>();
    for (int c = 0; c < criteria.size(); c++)
      costs.put(criteria.get(c), 100 * (judging.weightMean(criteria.get(c)) - share[c]));
    return costs;
  }

  /** Unrounded points, for comparing two pairings. */
  Map<Criterion, Double> difference(int i, int j) {
    double[] one = shares(i, new double[means.length]);
    double[] other = shares(j, new double[means.length]);
    Map<Criterion, Double> points = new LinkedHashMap<>();
    for (int c = 0; c < criteria.size(); c++)
      points.put(criteria.get(c), 100 * (one[c] - other[c]));
    return points;
  }

  private int slot(Criterion criterion) {
    Integer known = index.get(criterion);
    if (known != null) return known;
    index.put(criterion, criteria.size());
    criteria.add(criterion);
    return criteria.size() - 1;
  }

  /** What each criterion brings to a pairing's score, or takes from it, into the given array. */
  private double[] shares(int i, double[] into) {
    Arrays.fill(into, 0);
    double[] stock = judging.stockPanel(i).means();
    double[] variety = judging.varietyPanel(i).means();
    for (int c = 0; c < stock.length; c++) into[c] = stock[c] + variety[c];
    for (int kind = 0; kind < kinds.length; kind++)
      if (kinds[kind] >= 0) into[kinds[kind]] = judging.field.means[kind][i];
    if (match >= 0) into[match] = judging.matchMean(i);
    if (available >= 0) into[available] = judging.availableMean(i);
    double loss = judging.field.loss[i];
    if (loss == 0) return into;
    List<Panel.Factor> factors = judging.factors(i);
    double total = 0;
    for (Panel.Factor factor : factors) total += factor.cost();
    if (total == 0) return into;
    for (Panel.Factor factor : factors) {
      if (factor.mean() < 1) into[slot(factor.criterion())] += loss * factor.cost() / total;
    }
    return into;
  }

  /** Rounds to whole numbers with a given sum, moving those whose remainders are largest. */
  static long[] roundTo(double[] exact, long target) {
    long[] rounded = new long[exact.length];
    long sum = 0;
    for (int c = 0; c < exact.length; c++) sum += rounded[c] = Math.round(exact[c]);
    while (sum != target) {
      int step = sum < target ? 1 : -1;
      int pick = 0;
      for (int c = 1; c < exact.length; c++) {
        if (step * (exact[c] - rounded[c]) > step * (exact[pick] - rounded[pick])) pick = c;
      }
      rounded[pick] += step;
      sum += step;
    }
    return rounded;
  }
}
