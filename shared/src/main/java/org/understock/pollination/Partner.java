package org.understock.pollination;

import org.understock.plant.Variety;
import org.understock.wording.Sentence;

/**
 * A variety as pollen partner of another.
 *
 * @param variety the one that gives pollen
 * @param pair the verdict in that direction
 * @param text the verdict and its reason, for people
 */
public record Partner(Variety variety, PairVerdict pair, Sentence text) {
  static Partner of(Variety variety, PairVerdict pair) {
    return new Partner(variety, pair, Sentence.kept(pair::text));
  }
}
