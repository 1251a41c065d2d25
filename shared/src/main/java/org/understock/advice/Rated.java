package org.understock.advice;

import java.util.List;
import java.util.Map;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.wording.Sentence;

/**
 * A criterion judged by the levels that sources give a stock or a variety.
 *
 * @param parts the traits that enter, with their shares (summing to 1)
 * @param scale satisfaction of each level
 * @param bearing how far it matters here
 */
record Rated(
    Criterion criterion,
    Side side,
    List<Part> parts,
    Map<String, Double> scale,
    BearingRule bearing) {

  enum Side {
    STOCK,
    VARIETY
  }

  record Part(String trait, double share) {}

  /** What the levels speak of, to follow "and": "wet soil", "fire blight". */
  Sentence topic() {
    return Sentence.of("topic." + criterion.id() + ".the");
  }

  @FunctionalInterface
  interface BearingRule {
    Bearing of(Crop crop, Site site, Goal goal);
  }

  static Rated of(
      Criterion criterion,
      Side side,
      String trait,
      Map<String, Double> scale,
      BearingRule bearing) {
    return new Rated(criterion, side, List.of(new Part(trait, 1)), scale, bearing);
  }
}
