package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.TraitBook;
import org.understock.trait.Trait;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/** Says in words what a subject's levels for a trait add up to. */
final class LevelWords {
  /** Share of the stated weight from which a level is named; a judgement. */
  private static final double HEAVY = 0.18;

  private LevelWords() {}

  /**
   * A clause such as "M.7 is rated good for wet soil (3 sources)", or that nothing is published, or
   * that the sources disagree.
   *
   * @param name of the stock or variety
   * @param id its id
   * @param trait what the levels speak of
   * @param again whether the sentence has named the plant before
   * @param known what is known; empty when nothing is
   */
  static String clause(
      Words words,
      String name,
      String id,
      Trait trait,
      boolean again,
      Optional<Estimate.Levels> known) {
    String own = "rated." + trait.id();
    boolean fewness = trait.levels().contains("few");
    if (known.isPresent())
      return said(
          words, fewness ? own : scale(trait.levels()), name, id, trait.id(), again, known.get());
    return fewness
        ? words.say(own + ".missing", "name", name)
        : words.say(
            "rated.missing",
            "name",
            name,
            "again",
            again,
            "topic",
            Sentence.of(topic(trait.id(), "the")));
  }

  private static String scale(List<String> levels) {
    return levels.contains("susceptible") ? "rated.resistance" : "rated.suitability";
  }

  /** The sentence of a trait whose levels are known, whichever its scale. */
  static String sentence(
      Words words, String name, String id, String trait, Estimate.Levels levels) {
    String key = levels.levels().contains("few") ? "rated." + trait : scale(levels.levels());
    return said(words, key, name, id, trait, false, levels) + ".";
  }

  static String topic(String trait, String form) {
    return "topic." + trait + "." + form;
  }

  private static String said(
      Words words,
      String key,
      String name,
      String id,
      String trait,
      boolean again,
      Estimate.Levels levels) {
    double[] stated = stated(levels);
    List<String> heavy = heavy(levels, stated);
    String low = heavy.get(0);
    String high = heavy.get(heavy.size() - 1);
    return words.say(
        key,
        "name",
        name,
        "again",
        again,
        "trait",
        trait,
        "shape",
        shape(heavy, stated),
        "lowLevel",
        low,
        "low",
        Sentence.of("level." + low),
        "high",
        Sentence.of("level." + high),
        "topic",
        Sentence.of(topic(trait, "to")),
        "sources",
        sources(words, levels.support(), id));
  }

  /** "one source", "3 sources", with what makes them weak. */
  static String sources(Words words, Estimate.Support support, String id) {
    return words.say(
        "sources",
        "sources",
        support.sources(),
        "borrowed",
        support.inheritedFrom().map(from -> from.equals(id) ? "crops" : "clone").orElse("none"),
        "weak",
        support.grade() == Grade.D);
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

  /**
   * What the levels add up to by themselves, such as "good" or "fair to good".
   *
   * @param key begins the keys of the levels' words, such as {@code level.}
   */
  static String alone(Words words, String key, Estimate.Levels levels) {
    double[] stated = stated(levels);
    List<String> heavy = heavy(levels, stated);
    return words.say(
        "levels",
        "shape",
        shape(heavy, stated),
        "low",
        Sentence.of(bare(key + heavy.get(0))),
        "high",
        Sentence.of(bare(key + heavy.get(heavy.size() - 1))));
  }

  private static String bare(String key) {
    return key.equals("level.none") ? "level.none.bare" : key;
  }

  /** The levels that carry weight, or else the likeliest. */
  private static List<String> heavy(Estimate.Levels levels, double[] stated) {
    List<String> heavy = new ArrayList<>();
    for (int k = 0; k < stated.length; k++)
      if (stated[k] >= HEAVY) heavy.add(levels.levels().get(k));
    if (heavy.isEmpty()) heavy.add(levels.levels().get(best(stated)));
    return heavy;
  }

  private static String shape(List<String> heavy, double[] stated) {
    return heavy.size() == 1 ? "one" : adjacent(stated) ? "range" : "wide";
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
      if (stated[k] < HEAVY) continue;
      if (first < 0) first = k;
      last = k;
    }
    return last - first <= 2;
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
