package org.understock.advice;

import java.util.List;
import org.understock.site.Goal;
import org.understock.trait.Refusal;

/**
 * Weights of the criteria that take part, for every draw; they sum to 1 in each.
 *
 * <p>A weight is the criterion's priority times its relevance on the site, normalised. A priority
 * that the grower gave stands as given. One that only follows from a purpose is held loosely
 * (log-normal, {@value #LOOSENESS} on the log scale). Where neither speaks, the priority is drawn
 * from an exponential distribution: normalised, such weights are uniform on the simplex, which is
 * how stochastic multicriteria acceptability analysis says "no preference known" (Lahdelma and
 * Salminen 2001).
 */
final class Weights {
  private static final double LOOSENESS = 0.3;

  /**
   * Priority around which unstated ones are drawn when the grower stated some and gave no purpose.
   */
  private static final double UNSTATED = 2;

  private final double[][] byCriterion;
  private final double[] means;

  private Weights(double[][] byCriterion) {
    this.byCriterion = byCriterion;
    means = java.util.Arrays.stream(byCriterion).mapToDouble(Draws::mean).toArray();
  }

  /**
   * @throws Refusal.Conflict when every criterion that could take part was given priority 0
   */
  static Weights of(List<Active> active, Goal goal) {
    double[][] w = new double[active.size()][Draws.COUNT];
    double[] sum = new double[Draws.COUNT];
    for (int c = 0; c < w.length; c++) {
      String id = active.get(c).criterion().id();
      double[] priority = priority(id, goal);
      for (int d = 0; d < Draws.COUNT; d++) {
        w[c][d] = priority[d] * active.get(c).bearing().relevance();
        sum[d] += w[c][d];
      }
    }
    for (double s : sum) {
      if (!(s > 0))
        throw new Refusal.Conflict(
            "goal.priorities",
            "every criterion that matters on this site was given priority 0; leave at least one above 0");
    }
    for (double[] row : w) for (int d = 0; d < Draws.COUNT; d++) row[d] /= sum[d];
    return new Weights(w);
  }

  private static double[] priority(String id, Goal goal) {
    Double given = goal.priorities().get(id);
    if (given != null) return PriorityDraws.constant(given);
    if (goal.purpose() != null) return PriorityDraws.loose(id, Priorities.of(goal.purpose(), id));
    return PriorityDraws.free(id, goal.priorities().isEmpty() ? 1 : UNSTATED);
  }

  double[] of(int criterion) {
    return byCriterion[criterion];
  }

  double mean(int criterion) {
    return means[criterion];
  }

  /** Priorities by draw; the underlying draws are made once for each criterion. */
  private static final class PriorityDraws {
    private static final java.util.Map<String, double[]> FACTORS =
        new java.util.concurrent.ConcurrentHashMap<>();

    static double[] constant(double priority) {
      double[] p = new double[Draws.COUNT];
      java.util.Arrays.fill(p, priority);
      return p;
    }

    static double[] loose(String id, double priority) {
      double[] factor =
          FACTORS.computeIfAbsent(
              "loose " + id,
              key -> {
                double[] z = Draws.normal("priority of " + id);
                for (int d = 0; d < z.length; d++) z[d] = Math.exp(LOOSENESS * z[d]);
                return z;
              });
      return scaled(factor, priority);
    }

    static double[] free(String id, double priority) {
      return scaled(
          FACTORS.computeIfAbsent("free " + id, key -> Draws.exponential("weight of " + id)),
          priority);
    }

    private static double[] scaled(double[] factor, double by) {
      double[] p = new double[factor.length];
      for (int d = 0; d < p.length; d++) p[d] = factor[d] * by;
      return p;
    }
  }
}
