package org.understock.advice;

import java.util.Optional;
import org.understock.evidence.Estimate;
import org.understock.trait.Trait;

/**
 * Draws of one subject's level of one trait.
 *
 * @param estimate what is known; empty when nothing is, and then every level is equally likely: uncertain, which is not the same as average
 * @param draws level index by draw
 */
record LevelDraws(Trait trait, Optional<Estimate.Levels> estimate, byte[] draws) {

  static LevelDraws of(String subject, Trait trait, Optional<Estimate> estimate) {
    double[] uniform = new double[trait.levels().size()];
    java.util.Arrays.fill(uniform, 1.0 / uniform.length);
    return of(subject, trait, estimate, uniform);
  }

  /** @param unknown probabilities of the levels when nothing is known of the subject */
  static LevelDraws of(String subject, Trait trait, Optional<Estimate> estimate, double[] unknown) {
    Optional<Estimate.Levels> levels = estimate.filter(Estimate.Levels.class::isInstance).map(Estimate.Levels.class::cast);
    double[] p = levels.map(Estimate.Levels::probabilities).orElse(unknown);
    double[] u = Draws.uniform(subject + " " + trait.id());
    byte[] draws = new byte[Draws.COUNT];
    for (int d = 0; d < Draws.COUNT; d++) {
      int level = 0;
      double below = p[0];
      while (below < u[d] && level < p.length - 1) below += p[++level];
      draws[d] = (byte) level;
    }
    return new LevelDraws(trait, levels, draws);
  }

  /** As if the level were known to be this one. */
  LevelDraws known(int level) {
    byte[] same = new byte[Draws.COUNT];
    java.util.Arrays.fill(same, (byte) level);
    return new LevelDraws(trait, estimate, same);
  }

  /** Share of the draws by level. */
  double[] shares() {
    double[] shares = new double[trait.levels().size()];
    for (byte level : draws) shares[level] += 1.0 / Draws.COUNT;
    return shares;
  }

  boolean known() {
    return estimate.isPresent();
  }
}
