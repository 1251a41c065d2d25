package org.understock.advice;

import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How well one stock serves by each rated criterion, 0 to 1, draw by draw: the same on every site,
 * so that it is worked out when it is first asked for and kept. For many threads.
 */
final class Merits {
  private final Map<String, LevelDraws> levels;
  private final Map<String, double[]> byCriterion = new ConcurrentHashMap<>();

  /**
   * @param levels draws of the stock's levels, by trait
   */
  Merits(Map<String, LevelDraws> levels) {
    this.levels = levels;
  }

  /**
   * @param told traits by which some stock of the crop was rated: the others tell nothing apart
   * @return not to be changed
   */
  double[] of(Rated rated, Set<String> told) {
    return byCriterion.computeIfAbsent(rated.criterion().id(), id -> mixed(rated, told));
  }

  private double[] mixed(Rated rated, Set<String> told) {
    double[] satisfaction = new double[Draws.COUNT];
    double share = 0;
    for (Rated.Part part : rated.parts()) {
      LevelDraws draws = levels.get(part.trait());
      if (draws == null || !told.contains(part.trait())) continue;
      double[] values = Satisfaction.of(draws.trait().levels(), rated.scale());
      for (int d = 0; d < Draws.COUNT; d++)
        satisfaction[d] += part.share() * values[draws.draws()[d]];
      share += part.share();
    }
    for (int d = 0; d < Draws.COUNT; d++) satisfaction[d] /= share;
    return satisfaction;
  }
}
