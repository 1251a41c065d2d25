package org.understock.advice;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Splits a pairing's score into signed points by criterion against the mean of the considered pairings. Preferences are split by their mean of
 * weight times satisfaction; what limits cost is told apart among the limits in proportion to the logarithm of their factors. The points add up to
 * score minus mean exactly, also after rounding to a tenth (largest remainders).
 */
final class Effects {
  private final Judging judging;
  private final Map<Criterion, double[]> shares;
  private final Map<Criterion, Double> means = new LinkedHashMap<>();

  Effects(Judging judging) {
    this.judging = judging;
    shares = shares();
    shares.forEach((criterion, values) -> {
      double sum = 0;
      for (int i : judging.order) sum += values[i];
      means.put(criterion, sum / judging.order.size());
    });
  }

  /** Points of every criterion for a pairing, rounded to a tenth so that they add up to the rounded score minus the rounded mean. */
  Map<Criterion, Double> of(int i) {
    List<Criterion> criteria = new ArrayList<>(shares.keySet());
    double[] exact = new double[criteria.size()];
    for (int c = 0; c < exact.length; c++) exact[c] = 1000 * (shares.get(criteria.get(c))[i] - means.get(criteria.get(c)));
    long target = Math.round(1000 * judging.field.score[i]) - Math.round(1000 * judging.meanScore);
    long[] tenths = roundTo(exact, target);
    Map<Criterion, Double> effects = new LinkedHashMap<>();
    for (int c = 0; c < exact.length; c++) effects.put(criteria.get(c), tenths[c] / 10.0);
    return effects;
  }

  /** Unrounded points, for comparing two pairings. */
  Map<Criterion, Double> difference(int i, int j) {
    Map<Criterion, Double> points = new LinkedHashMap<>();
    shares.forEach((criterion, values) -> points.put(criterion, 100 * (values[i] - values[j])));
    return points;
  }

  private Map<Criterion, double[]> shares() {
    Map<Criterion, double[]> byCriterion = new LinkedHashMap<>();
    int n = judging.pairs.size();
    for (int c = 0; c < judging.active.size(); c++) {
      double[] values = new double[n];
      Criterion criterion = judging.active.get(c).criterion();
      for (int i : judging.order) values[i] = preference(c, criterion, i);
      byCriterion.put(criterion, values);
    }
    for (int i : judging.order) {
      double loss = judging.field.loss[i];
      if (loss == 0) continue;
      List<Panel.Factor> factors = judging.factors(i);
      double total = 0;
      for (Panel.Factor factor : factors) total -= Math.log(factor.mean());
      if (total == 0) continue;
      for (Panel.Factor factor : factors) {
        if (factor.mean() < 1) byCriterion.computeIfAbsent(factor.criterion(), k -> new double[n])[i] += loss * -Math.log(factor.mean()) / total;
      }
    }
    return byCriterion;
  }

  private double preference(int c, Criterion criterion, int i) {
    Field field = judging.field;
    if (criterion == Criteria.SIZE) return field.means[Field.SIZE][i];
    if (criterion == Criteria.EARLY) return field.means[Field.EARLY][i];
    if (criterion == Criteria.YIELD) return field.means[Field.YIELD][i];
    if (criterion == Criteria.LIFE) return field.means[Field.LIFE][i];
    if (criterion == Criteria.MATCH) return field.matchMean[i];
    if (criterion == Criteria.AVAILABILITY) return field.availableMean[i];
    return judging.stockPanel(i).means()[c] + judging.varietyPanel(i).means()[c];
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
