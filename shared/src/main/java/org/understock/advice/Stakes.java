package org.understock.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntFunction;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Subject;

/**
 * What each uncertain thing about the candidates of one question is worth knowing, from the draws
 * that score them.
 *
 * <p>Every quantity has draws of its own, independent of all others. So the mean utility of a
 * pairing, given that a quantity has some value, is the mean over all draws with that quantity held
 * at the value and everything else as drawn; and pairings that the quantity does not enter keep
 * their mean. Nothing has to be estimated from the scatter of the draws (see {@link
 * PerfectInformation}).
 *
 * <p>Of each stock and each variety the {@value #CONTENDERS} best pairings are asked: knowing one
 * stock better moves its pairings alike, so that the others do not overtake. Of what a record can
 * teach, only that counts which is not known of the subject itself; how places differ no record
 * takes away.
 */
final class Stakes {
  private static final int CONTENDERS = 3;

  private final Judging judging;
  private final CropTables tables;
  private final List<Stake> stakes = new ArrayList<>();

  Stakes(Judging judging) {
    this.judging = judging;
    tables = judging.tables;
    for (int i = 0; i < judging.pairs.size(); i++) {
      // what was ruled out unseen may not be, if more were known
      if (Double.isNaN(judging.field.sizeLimit[i])) judging.utility(i, new double[Draws.COUNT]);
    }
  }

  /** The most first; equals in the order of their subjects and traits. */
  List<Stake> all() {
    Map<Integer, List<Integer>> byStock = contenders(i -> judging.pairs.get(i).stock());
    Map<Integer, List<Integer>> byVariety = contenders(i -> judging.pairs.get(i).variety());
    byStock.forEach(this::stock);
    byVariety.forEach(this::variety);
    Set<Integer> unions = new TreeSet<>();
    byStock.values().forEach(unions::addAll);
    byVariety.values().forEach(unions::addAll);
    for (int i : unions) union(i);
    stakes.sort(
        Comparator.comparingDouble((Stake s) -> -s.points())
            .thenComparing(s -> s.subject().toString())
            .thenComparing(Stake::trait));
    return List.copyOf(stakes);
  }

  /** The best pairings by stock or by variety. */
  private Map<Integer, List<Integer>> contenders(IntUnaryOperator key) {
    double[] score = judging.field.score;
    Map<Integer, List<Integer>> groups = new TreeMap<>();
    IntStream.range(0, score.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer i) -> -score[i]).thenComparing(i -> i))
        .forEach(
            i -> {
              List<Integer> group =
                  groups.computeIfAbsent(key.applyAsInt(i), k -> new ArrayList<>());
              if (group.size() < CONTENDERS) group.add(i);
            });
    return groups;
  }

  private void stock(int index, List<Integer> pairings) {
    StockRow row = tables.stocks.get(index);
    Subject subject = new Subject.StockIn(tables.crop, row.stock().id());
    double other = best(i -> judging.pairs.get(i).stock() != index);
    Asked asked =
        new Asked(
            subject,
            other,
            judging.field.score[pairings.get(0)],
            (k, part) -> {
              Judging.Pair pair = judging.pairs.get(pairings.get(k));
              return judging.worth(
                  pairings.get(k),
                  part,
                  own(tables.varieties.get(pair.variety()), judging.varietyPanel(pairings.get(k))));
            },
            pairings.size());
    StockQuantities.of(judging, row, pairings.get(0)).forEach(quantity -> ask(asked, quantity));
  }

  private void variety(int index, List<Integer> pairings) {
    VarietyRow row = tables.varieties.get(index);
    Subject subject = new Subject.OfVariety(tables.crop, row.variety().id());
    double other = best(i -> judging.pairs.get(i).variety() != index);
    Asked asked =
        new Asked(
            subject,
            other,
            judging.field.score[pairings.get(0)],
            (k, part) -> {
              Judging.Pair pair = judging.pairs.get(pairings.get(k));
              StockRow stock = tables.stocks.get(pair.stock());
              return judging.worth(
                  pairings.get(k),
                  new Judging.Part(judging.stockPanel(pairings.get(k)), stock.scores()),
                  part);
            },
            pairings.size());
    VarietyQuantities.of(judging, row, pairings.get(0)).forEach(quantity -> ask(asked, quantity));
  }

  private static Judging.Part own(VarietyRow row, Panel panel) {
    return new Judging.Part(panel, row.scores());
  }

  /** Highest mean utility among all candidates that fit. */
  private double best(java.util.function.IntPredicate fits) {
    double best = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < judging.pairs.size(); i++)
      if (fits.test(i)) best = Math.max(best, judging.field.score[i]);
    return best;
  }

  private interface Worth {
    double of(int pairing, Judging.Part part);
  }

  /**
   * @param other highest mean utility of the pairings that don't hold the subject
   * @param own the highest of those that do
   */
  private record Asked(Subject subject, double other, double own, Worth worth, int pairings) {
    double[] means(Judging.Part part) {
      double[] means = new double[pairings];
      for (int k = 0; k < pairings; k++) means[k] = worth.of(k, part);
      return means;
    }
  }

  /**
   * One uncertain thing about a subject.
   *
   * @param probabilities by state; null for a normal quantity, whose states are the nodes of {@link
   *     PerfectInformation}
   * @param best the state that suits best; -1 where more is not always better or worse
   * @param states what the subject brings to a pairing in each state
   */
  record Quantity(
      String trait, double @Nullable [] probabilities, int best, IntFunction<Judging.Part> states) {
    /**
     * @param merit by level; the more the better
     */
    static Quantity ofLevels(
        String trait, double[] shares, double[] merit, IntFunction<Judging.Part> ofLevel) {
      int[] seen = IntStream.range(0, shares.length).filter(k -> shares[k] > 0).toArray();
      int best =
          IntStream.range(0, seen.length)
              .boxed()
              .max(Comparator.comparingDouble(k -> merit[seen[k]]))
              .orElseThrow();
      return new Quantity(
          trait,
          Arrays.stream(seen).mapToDouble(k -> shares[k]).toArray(),
          best,
          k -> ofLevel.apply(seen[k]));
    }

    int count() {
      return probabilities == null ? PerfectInformation.NODES.length : probabilities.length;
    }
  }

  private void ask(Asked asked, Quantity quantity) {
    double[][] means = new double[quantity.count()][];
    if (asked.own < asked.other && quantity.best >= 0) {
      means[quantity.best] = asked.means(quantity.states.apply(quantity.best));
      if (Arrays.stream(means[quantity.best]).max().orElseThrow() <= asked.other)
        return; // not first even at its best: worth nothing
    }
    for (int k = 0; k < means.length; k++)
      if (means[k] == null) means[k] = asked.means(quantity.states.apply(k));
    PerfectInformation.Worth worth =
        quantity.probabilities == null
            ? PerfectInformation.ofNormal(means, asked.other)
            : PerfectInformation.ofStates(quantity.probabilities, means, asked.other);
    enter(asked.subject, quantity.trait, worth);
  }

  /**
   * A union of which nothing is said, or of which sources contradict each other, holds for good or
   * fails.
   */
  private void union(int i) {
    Judging.Pair pair = judging.pairs.get(i);
    Compatibilities.Union union = tables.union(pair.stock(), pair.variety());
    boolean open =
        union.chance() > 0 && union.chance() < 1 && (!union.known() || union.verdicts().size() > 1);
    if (!open) return;
    double other = best(k -> k != i);
    double[][] means = {{judging.field.score[i] / union.chance()}, {0}};
    Subject subject =
        new Subject.Pairing(
            tables.crop,
            tables.stocks.get(pair.stock()).stock().id(),
            tables.varieties.get(pair.variety()).variety().id(),
            Subject.Pairing.Reach.NAMED);
    double[] chances = {union.chance(), 1 - union.chance()};
    enter(subject, Compatibilities.TRAIT, PerfectInformation.ofStates(chances, means, other));
  }

  private void enter(Subject subject, String trait, PerfectInformation.Worth worth) {
    if (worth.value() > 0)
      stakes.add(new Stake(subject, trait, 100 * worth.value(), worth.wouldChange()));
  }

  /**
   * Draws as they would be if the knowable part of the quantity were known: the part's score takes
   * a fixed value, the rest stays as drawn.
   *
   * @param draws of a normal quantity
   * @param knowable share of its variance that knowledge of the subject takes away
   * @param score of the part that is known, in standard deviations of that part
   */
  static double[] given(double[] draws, double knowable, double score) {
    double mean = Arrays.stream(draws).average().orElseThrow();
    double sd =
        Math.sqrt(Arrays.stream(draws).map(x -> (x - mean) * (x - mean)).average().orElseThrow());
    double[] given = new double[draws.length];
    for (int d = 0; d < draws.length; d++)
      given[d] =
          mean + sd * Math.sqrt(knowable) * score + Math.sqrt(1 - knowable) * (draws[d] - mean);
    return given;
  }

  /**
   * Share of a normal quantity's variance that is known once all is known of its subject; 0 to 1.
   */
  static double share(double knowableSd, double drawnSd) {
    return drawnSd == 0 ? 0 : Math.min(1, knowableSd * knowableSd / (drawnSd * drawnSd));
  }

  static double sd(double[] draws) {
    double mean = Arrays.stream(draws).average().orElseThrow();
    return Math.sqrt(
        Arrays.stream(draws).map(x -> (x - mean) * (x - mean)).average().orElseThrow());
  }

  static Map<String, LevelDraws> replaced(Map<String, LevelDraws> levels, String trait, int level) {
    Map<String, LevelDraws> replaced = new HashMap<>(levels);
    replaced.computeIfPresent(trait, (t, draws) -> draws.known(level));
    return replaced;
  }
}
