package org.understock.advice;

import java.util.Optional;
import org.understock.evidence.Estimate;
import org.understock.trait.Trait;

/**
 * Draws of one subject's level of one trait.
 *
 * @param estimate what is known; empty when nothing is, and then the level is drawn from those of
 *     others: uncertain, which is not the same as average
 * @param draws level index by draw
 */
record LevelDraws(Trait trait, Optional<Estimate.Levels> estimate, byte[] draws) {

  /**
   * Voices that the even spread over the levels has in {@link #spread}: where few were rated,
   * anything is possible. A judgement.
   */
  private static final int EVEN_VOICES = 3;

  /**
   * Probabilities of the levels for a subject of which nothing is said: the mean over those that
   * were rated, with some voices for the even spread. So silence is neither a merit nor a fault,
   * and stays as wide as the rated ones differ.
   */
  static double[] spread(Trait trait, java.util.List<Estimate> rated) {
    double[] p = new double[trait.levels().size()];
    java.util.Arrays.fill(p, (double) EVEN_VOICES / p.length);
    int voices = EVEN_VOICES;
    for (Estimate estimate : rated) {
      if (!(estimate instanceof Estimate.Levels levels)) continue;
      double[] own = levels.probabilities();
      for (int k = 0; k < p.length; k++) p[k] += own[k];
      voices++;
    }
    for (int k = 0; k < p.length; k++) p[k] /= voices;
    return p;
  }

  /**
   * @param unknown probabilities of the levels when nothing is known of the subject
   */
  static LevelDraws of(String subject, Trait trait, Optional<Estimate> estimate, double[] unknown) {
    Optional<Estimate.Levels> levels =
        estimate.filter(Estimate.Levels.class::isInstance).map(Estimate.Levels.class::cast);
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
