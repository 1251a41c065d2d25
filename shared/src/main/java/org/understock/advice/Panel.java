package org.understock.advice;

import java.util.List;

/**
 * What one subject (a stock or a variety) brings to every pairing it enters, for one request.
 *
 * @param preference sum over the subject's criteria of weight times satisfaction, by draw
 * @param means mean of weight times satisfaction by active criterion; 0 for criteria that are not
 *     this side's
 * @param met mean satisfaction by active criterion; NaN where it is not this side's
 * @param limit product of the subject's limits, by draw
 * @param limits the single limits with their mean factors
 */
record Panel(
    double[] preference, double[] means, double[] met, double[] limit, List<Factor> limits) {

  /**
   * One limit's mean factor, 0 (ruled out) to 1 (no hindrance).
   *
   * @param cost minus its natural log, kept here because it is asked for in every pairing that the
   *     subject enters
   */
  record Factor(Criterion criterion, double mean, double cost) {
    static Factor of(Criterion criterion, double mean) {
      return new Factor(criterion, mean, -Math.log(mean));
    }
  }

  static Panel empty(int criteria) {
    double[] limit = new double[Draws.COUNT];
    java.util.Arrays.fill(limit, 1);
    double[] met = new double[criteria];
    java.util.Arrays.fill(met, Double.NaN);
    return new Panel(
        new double[Draws.COUNT], new double[criteria], met, limit, new java.util.ArrayList<>());
  }

  /**
   * Adds a criterion.
   *
   * @param share of the criterion that is this side's (the other side has the rest)
   */
  void add(int criterion, double[] weight, double[] satisfaction, double share) {
    means[criterion] += share * Draws.mean(weight, satisfaction);
    met[criterion] = Draws.mean(satisfaction);
    for (int d = 0; d < Draws.COUNT; d++) preference[d] += share * (weight[d] * satisfaction[d]);
  }

  /** Adds a criterion that is met alike in every draw. */
  void add(int criterion, double[] weight, double satisfaction, double share) {
    double part = share * satisfaction;
    means[criterion] += part * Draws.mean(weight);
    met[criterion] = satisfaction;
    for (int d = 0; d < Draws.COUNT; d++) preference[d] += part * weight[d];
  }

  /**
   * Restricts by what a satisfaction short of the full one takes away.
   *
   * @param takes share of the score that none at all takes
   */
  void restrict(Criterion criterion, double[] satisfaction, double takes) {
    for (int d = 0; d < Draws.COUNT; d++) limit[d] *= 1 - takes * (1 - satisfaction[d]);
    limits.add(Factor.of(criterion, 1 - takes * (1 - Draws.mean(satisfaction))));
  }

  void restrict(Criterion criterion, double[] factor) {
    for (int d = 0; d < Draws.COUNT; d++) limit[d] *= factor[d];
    limits.add(Factor.of(criterion, Draws.mean(factor)));
  }

  /** The same with a preference's satisfaction moved by a constant. */
  Panel moved(double[] weight, double by) {
    double[] moved = preference.clone();
    for (int d = 0; d < Draws.COUNT; d++) moved[d] += weight[d] * by;
    return new Panel(moved, means, met, limit, limits);
  }

  /** Whether one of the subject's limits is enough to rule its pairings out. */
  boolean rulesOut() {
    for (Factor factor : limits) if (factor.mean < Field.RULED_OUT_BELOW) return true;
    return false;
  }
}
