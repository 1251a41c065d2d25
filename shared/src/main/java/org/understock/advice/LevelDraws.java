package org.understock.advice;

import java.util.List;
import java.util.Optional;
import org.understock.evidence.Estimate;
import org.understock.trait.Trait;
import org.understock.wording.Sentence;

/**
 * Draws of one subject's level of one trait.
 *
 * @param estimate what is known; empty when nothing is, and then the level is drawn from those of
 *     others: uncertain, which is not the same as average
 * @param draws level index by draw
 * @param clause what the estimate comes to, in words
 * @param again the same in a sentence that has named the subject before
 */
record LevelDraws(
    Trait trait,
    Optional<Estimate.Levels> estimate,
    byte[] draws,
    Sentence clause,
    Sentence again) {

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
   * @param id of the subject
   * @param name of the subject
   * @param unknown probabilities of the levels when nothing is known of the subject
   */
  static LevelDraws of(
      String id, String name, Trait trait, Optional<Estimate> estimate, double[] unknown) {
    Optional<Estimate.Levels> levels =
        estimate.filter(Estimate.Levels.class::isInstance).map(Estimate.Levels.class::cast);
    double[] p = levels.map(Estimate.Levels::probabilities).orElse(unknown);
    double[] u = Draws.uniform(id + " " + trait.id());
    byte[] draws = new byte[Draws.COUNT];
    for (int d = 0; d < Draws.COUNT; d++) {
      int level = 0;
      double below = p[0];
      while (below < u[d] && level < p.length - 1) below += p[++level];
      draws[d] = (byte) level;
    }
    return new LevelDraws(
        trait,
        levels,
        draws,
        Sentence.kept(words -> LevelWords.clause(words, name, id, trait, false, levels)),
        Sentence.kept(words -> LevelWords.clause(words, name, id, trait, true, levels)));
  }

  /** As if the level were known to be this one. */
  LevelDraws known(int level) {
    byte[] same = new byte[Draws.COUNT];
    java.util.Arrays.fill(same, (byte) level);
    return new LevelDraws(trait, estimate, same, clause, again);
  }

  /** Share of the draws by level. */
  double[] shares() {
    double[] shares = new double[trait.levels().size()];
    for (byte level : draws) shares[level] += 1.0 / Draws.COUNT;
    return shares;
  }

  /** Ids of the records behind the estimate. */
  List<String> records() {
    return estimate.map(levels -> levels.support().records()).orElse(List.of());
  }

  boolean known() {
    return estimate.isPresent();
  }
}
