package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.TraitBook;
import org.understock.plant.Stock;

/** Says in words what a subject's levels for a trait add up to. */
final class LevelWords {
  private LevelWords() {}

  /**
   * A clause such as "M.7 is rated good for wet soil (3 sources)", or that nothing is published, or
   * that the sources disagree.
   *
   * @param trait the one of the criterion's traits that is told
   */
  static String clause(Stock stock, Rated rated, String trait, Rating rating) {
    String name = stock.name();
    if (rated.scale() != Satisfaction.FEWNESS)
      return clause(name, stock.id(), rated.topic(), rating);
    String things = trait.equals("burr-knots") ? "burr knots" : "root suckers";
    return rating
        .levels()
        .map(
            levels ->
                name
                    + " makes "
                    + said(levels).replace("none", "no")
                    + " "
                    + things
                    + " ("
                    + sources(levels.support(), stock.id())
                    + ")")
        .orElse("how many " + things + " " + name + " makes is not on record");
  }

  /**
   * @param name of the stock or variety
   * @param id its id
   * @param topic what the levels speak of, after "for" or "to"
   */
  static String clause(String name, String id, String topic, Rating rating) {
    if (rating.levels().isEmpty())
      return "nothing published on " + name + " and " + topic + " is in the evidence";
    Estimate.Levels levels = rating.levels().get();
    boolean resistance = levels.levels().contains("susceptible");
    String verb = resistance ? " is " : " is rated ";
    String link = resistance ? " to " : " for ";
    return name + verb + said(levels) + link + topic + " (" + sources(levels.support(), id) + ")";
  }

  /** What the levels add up to, such as "good" or "fair to good". */
  static String said(Estimate.Levels levels) {
    double[] stated = stated(levels);
    List<String> words = new ArrayList<>();
    for (int k = 0; k < stated.length; k++)
      if (stated[k] >= 0.18) words.add(levels.levels().get(k).replace('-', ' '));
    if (words.isEmpty()) return levels.levels().get(best(stated)).replace('-', ' ');
    if (words.size() == 1) return words.get(0);
    String between = words.get(0) + " to " + words.get(words.size() - 1);
    return adjacent(stated) ? between : "anything from " + between;
  }

  /** "one source", "3 sources", with what makes them weak. */
  static String sources(Estimate.Support support, String id) {
    String count = support.sources() == 1 ? "one source" : support.sources() + " sources";
    String borrowed =
        support
            .inheritedFrom()
            .map(
                from -> from.equals(id) ? ", under other crops" : ", of the stock it is a clone of")
            .orElse("");
    return count + borrowed + (support.grade() == Grade.D ? ", weak evidence" : "");
  }

  /** Share of the stated weight on each level: the uniform part of the prior taken off again. */
  private static double[] stated(Estimate.Levels levels) {
    double[] alpha = levels.alpha().clone();
    double least = Double.MAX_VALUE;
    for (double a : alpha) least = Math.min(least, a);
    double sum = 0;
    for (int k = 0; k < alpha.length; k++) sum += alpha[k] -= least;
    for (int k = 0; k < alpha.length; k++) alpha[k] = sum > 0 ? alpha[k] / sum : 1.0 / alpha.length;
    return alpha;
  }

  /** Mean satisfaction over what the sources state, without the prior's even share. */
  static double mean(Estimate.Levels levels, Map<String, Double> scale) {
    double[] stated = stated(levels);
    double[] values = Satisfaction.of(levels.levels(), scale);
    double sum = 0;
    for (int k = 0; k < stated.length; k++) sum += stated[k] * values[k];
    return sum;
  }

  private static int best(double[] p) {
    int best = 0;
    for (int k = 1; k < p.length; k++) if (p[k] > p[best]) best = k;
    return best;
  }

  /**
   * Whether the levels that carry weight are neighbours, with no gap between them and at most two
   * steps apart.
   */
  private static boolean adjacent(double[] stated) {
    int first = -1;
    int last = -1;
    for (int k = 0; k < stated.length; k++) {
      if (stated[k] < 0.18) continue;
      if (first < 0) first = k;
      last = k;
    }
    return last - first <= 2;
  }

  /**
   * A subject's rating on one trait.
   *
   * @param levels what is known, or empty
   * @param records ids of the records behind it
   */
  record Rating(Optional<Estimate.Levels> levels, List<String> records) {
    static Rating of(LevelDraws draws) {
      return new Rating(
          draws.estimate(), draws.estimate().map(e -> e.support().records()).orElse(List.of()));
    }
  }

  /** Names of sources behind records, for a thin-evidence line. */
  static boolean leansOnMemory(TraitBook book, List<String> records) {
    return !records.isEmpty()
        && records.stream()
            .allMatch(
                id ->
                    book.record(id)
                        .map(
                            r ->
                                r.method() == org.understock.evidence.Method.FROM_MEMORY
                                    || r.method() == org.understock.evidence.Method.COMMON_PRACTICE)
                        .orElse(false));
  }
}
