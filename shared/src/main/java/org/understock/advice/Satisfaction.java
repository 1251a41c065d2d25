package org.understock.advice;

import java.util.Map;

/**
 * How well a level serves, 0 to 1, for the vocabularies of the evidence. The steps are a judgement,
 * written down here once: between neighbouring words of a resistance scale the sources themselves
 * are loose, so the middle of the scale is steep and its ends are flat.
 */
final class Satisfaction {
  static final Map<String, Double> RESISTANCE =
      Map.of(
          "very-susceptible",
          0.0,
          "susceptible",
          0.2,
          "moderately-susceptible",
          0.4,
          "moderately-resistant",
          0.7,
          "resistant",
          0.95,
          "immune",
          1.0);

  static final Map<String, Double> SUITABILITY =
      Map.of("poor", 0.05, "fair", 0.45, "good", 0.85, "very-good", 1.0);

  /** Suckers and burr knots: the fewer the better. */
  static final Map<String, Double> FEWNESS =
      Map.of("none", 1.0, "few", 0.85, "moderate", 0.45, "many", 0.05);

  /**
   * How a variety stands to a disease of which nothing is said. Resistance is what a release is
   * praised for, so silence more often means that there is none; drawn evenly, the unknown would
   * come before every variety that was rated and found wanting. A judgement.
   */
  private static final Map<String, Double> UNSAID =
      Map.of(
          "very-susceptible",
          0.2,
          "susceptible",
          0.35,
          "moderately-susceptible",
          0.2,
          "moderately-resistant",
          0.15,
          "resistant",
          0.08,
          "immune",
          0.02);

  private Satisfaction() {}

  /** Probabilities of a resistance trait's levels for a variety of which nothing is said. */
  static double[] unsaidResistance(java.util.List<String> levels) {
    return of(levels, UNSAID);
  }

  /** A scale's values by level index for a trait's levels. */
  static double[] of(java.util.List<String> levels, Map<String, Double> scale) {
    double[] values = new double[levels.size()];
    for (int k = 0; k < values.length; k++) {
      Double value = scale.get(levels.get(k));
      if (value == null)
        throw new IllegalStateException("level '" + levels.get(k) + "' has no satisfaction");
      values[k] = value;
    }
    return values;
  }
}
