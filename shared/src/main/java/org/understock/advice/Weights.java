package org.understock.advice;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
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

  /** Draws by criterion, made once for each. */
  private static final Map<String, double[]> LOOSE = new ConcurrentHashMap<>();

  private static final Map<String, double[]> FREE = new ConcurrentHashMap<>();

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
      double priority = priority(id, goal) * active.get(c).bearing().relevance();
      weigh(factor(id, goal), priority, w[c], sum);
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

  private static void weigh(double[] factor, double priority, double[] into, double[] sum) {
    for (int d = 0; d < Draws.COUNT; d++) {
      into[d] = factor[d] * priority;
      sum[d] += into[d];
    }
  }

  /** Around which the priority is drawn. */
  private static double priority(String id, Goal goal) {
    Double given = goal.priorities().get(id);
    if (given != null) return given;
    if (goal.purpose() != null) return Priorities.of(goal.purpose(), id);
    return goal.priorities().isEmpty() ? 1 : UNSTATED;
  }

  /** How loosely it is drawn. */
  private static double[] factor(String id, Goal goal) {
    if (goal.priorities().containsKey(id)) return PairingJudgement.ONES;
    return goal.purpose() != null
        ? LOOSE.computeIfAbsent(id, Weights::loose)
        : FREE.computeIfAbsent(id, key -> Draws.exponential("weight of " + key));
  }

  private static double[] loose(String id) {
    double[] z = Draws.normal("priority of " + id);
    for (int d = 0; d < z.length; d++) z[d] = Math.exp(LOOSENESS * z[d]);
    return z;
  }

  double[] of(int criterion) {
    return byCriterion[criterion];
  }

  double mean(int criterion) {
    return means[criterion];
  }
}
