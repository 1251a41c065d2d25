package org.understock.evidence.pooling;

import java.util.Map;
import java.util.Objects;
import org.understock.evidence.Method;

/**
 * The weight of one voice by how its author came to know: a judgement, in one table. A weight of 1
 * stands for one replicated trial over several sites; what rests on memory counts little beside
 * anything published.
 */
public final class Voices {
  private static final Map<Method, Double> WEIGHTS =
      Map.of(
          Method.REPLICATED_MULTI_SITE, 1.0,
          Method.REPLICATED_SINGLE_SITE, 0.8,
          Method.EXPERT_RATING, 0.6,
          Method.BREEDER_STATEMENT, 0.4,
          Method.GROWER_OBSERVATION, 0.3,
          Method.COMMON_PRACTICE, 0.3,
          Method.FROM_MEMORY, 0.15);

  private Voices() {}

  public static double weight(Method method) {
    return Objects.requireNonNull(WEIGHTS.get(method));
  }

  /**
   * Standard deviation on the log scale that a statement of a quantity has of its own, beside any
   * range it gives: a statement of weight 1 has {@code spread}, others more, as if they were fewer
   * voices.
   */
  static double spread(Method method, double spread) {
    return spread / Math.sqrt(weight(method));
  }
}
