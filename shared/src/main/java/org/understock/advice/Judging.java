package org.understock.advice;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.understock.growth.Expectations;
import org.understock.growth.SiteGrowth;

/**
 * The scoring of one request: panels of the stocks and varieties that take part, then one pass over
 * the pairings. What it leaves behind are arrays by pairing ({@link Field}) and the order of merit;
 * words are made later, and only for the pairings that the answer shows.
 */
final class Judging {
  /** One candidate: indices into the crop's tables, and the asker's own stock-keeping unit. */
  record Pair(int stock, int variety, @Nullable String sku) {}

  /** So many pairings or fewer: what their draws came to is kept for the words. */
  private static final int FEW = 64;

  private static final double[] NOTHING = new double[Draws.COUNT];

  final CropTables tables;
  final Question question;
  final List<Pair> pairs;
  final List<Active> active;
  final Weights weights;
  final List<@Nullable Panel> stocks;
  final List<@Nullable Panel> varieties;
  final Field field;
  final Side side;

  /** Null where frost at bloom takes no part. */
  final @Nullable BloomFrosts frosts;

  /** Pairings that were not ruled out, best first. */
  final List<Integer> order;

  final double meanScore;

  private final PairingJudgement judge;

  private final SiteGrowth siteGrowth;
  final double[] matchWeight;
  private final double matchWeightMean;
  final double[] availableWeight;
  private final double availableWeightMean;

  /** For what is scored as if something were known; made when that is first asked for. */
  private @Nullable Field aside;

  /** By pairing, where they are few. */
  private final Map<Integer, double[]> utilities = new HashMap<>();

  /** What is expected of the pairings that are spoken of, made once for all their sentences. */
  private final Map<Integer, Expectations> spokenOf = new HashMap<>();

  Judging(
      CropTables tables,
      Question question,
      List<Pair> pairs,
      List<Active> active,
      @Nullable BloomFrosts frosts) {
    this.frosts = frosts;
    this.tables = tables;
    this.question = question;
    this.pairs = pairs;
    this.active = active;
    weights = Weights.of(active, question.goal());
    BitSet usedStocks = new BitSet();
    BitSet usedVarieties = new BitSet();
    for (Pair pair : pairs) {
      usedStocks.set(pair.stock);
      usedVarieties.set(pair.variety);
    }
    side = new Side(tables, question.site(), question.goal(), active, weights, frosts);
    stocks = Side.panels(tables.stocks, usedStocks, side::of);
    varieties = Side.panels(tables.varieties, usedVarieties, side::of);
    siteGrowth = tables.growth.site(question.site());
    matchWeight = weightOf(Criteria.MATCH);
    matchWeightMean = Draws.mean(matchWeight);
    availableWeight = weightOf(Criteria.AVAILABILITY);
    availableWeightMean = Draws.mean(availableWeight);
    judge = new PairingJudgement(question.goal(), tables.usualYieldKgPerM2);
    double[][] kinds = {
      weightOf(Criteria.SIZE),
      weightOf(Criteria.EARLY),
      weightOf(Criteria.YIELD),
      weightOf(Criteria.LIFE)
    };
    field = new Field(pairs.size(), judge, kinds);
    run();
    order =
        IntStream.range(0, pairs.size())
            .filter(i -> !field.out[i])
            .boxed()
            .sorted(merit())
            .toList();
    meanScore = order.stream().mapToDouble(i -> field.score[i]).average().orElse(0);
  }

  private void run() {
    boolean few = pairs.size() <= FEW;
    double[] utility = new double[Draws.COUNT];
    BitSet stocksOut = ruledOut(stocks);
    BitSet varietiesOut = ruledOut(varieties);
    for (int i = 0; i < pairs.size(); i++) {
      Pair pair = pairs.get(i);
      field.out[i] =
          stocksOut.get(pair.stock)
              || varietiesOut.get(pair.variety)
              || tables.union(pair.stock, pair.variety).chance() < Field.RULED_OUT_BELOW;
      if (field.out[i]) continue;
      if (few) utility = new double[Draws.COUNT];
      utility(i, utility);
      if (few) utilities.put(i, utility);
      field.out[i] = field.sizeLimit[i] < Field.RULED_OUT_BELOW;
      if (!field.out[i]) field.enter(i, utility);
    }
    field.close();
  }

  /** Utility by draw of one pairing, not to be changed; worked out again unless it was kept. */
  double[] utility(int i) {
    double[] known = utilities.get(i);
    return known != null ? known : utility(i, new double[Draws.COUNT]);
  }

  /** Utility by draw of one pairing, into the given array; its means are entered in the field. */
  double[] utility(int i, double[] utility) {
    Pair pair = pairs.get(i);
    StockRow stock = tables.stocks.get(pair.stock);
    VarietyRow variety = tables.varieties.get(pair.variety);
    score(
        field,
        i,
        pair,
        new Part(panel(stocks, pair.stock), stock.scores()),
        new Part(panel(varieties, pair.variety), variety.scores()),
        utility);
    return utility;
  }

  /** What a stock or a variety brings to a pairing's score. */
  record Part(Panel panel, Scores scores) {}

  /**
   * Mean utility of a pairing if its stock and variety brought these in place of their own, in the
   * same draws. Leaves the field as it is.
   */
  double worth(int i, Part stock, Part variety) {
    if (aside == null) aside = new Field(1, judge, field.weights);
    score(aside, 0, pairs.get(i), stock, variety, new double[Draws.COUNT]);
    return aside.score[0];
  }

  private void score(Field into, int at, Pair pair, Part stock, Part variety, double[] utility) {
    double matchMet = matchMet(tables.stocks.get(pair.stock), tables.varieties.get(pair.variety));
    into.score(
        at,
        stock.scores,
        variety.scores,
        stock.panel,
        variety.panel,
        tree(pair),
        tables.union(pair.stock, pair.variety).chance(),
        matchWeight,
        matchMet,
        pair.sku == null ? NOTHING : availableWeight,
        utility);
  }

  Field.Tree tree(Pair pair) {
    Expectations tree = expectations(pair);
    double ground = Math.log(tree.inRowM() * tree.rowM());
    return new Field.Tree(
        tree.heightM().mu(),
        tree.heightM().sigma(),
        tree.spreadM().mu(),
        tree.spreadM().sigma(),
        tree.firstCropYear().mu(),
        tree.firstCropYear().sigma(),
        tree.matureYieldKg().mu() - ground,
        tree.matureYieldKg().sigma(),
        tree.lifeYears().mu(),
        tree.lifeYears().sigma());
  }

  /** What is expected of a pairing that the answer speaks of. */
  Expectations expectations(int i) {
    return spokenOf.computeIfAbsent(i, k -> expectations(pairs.get(k)));
  }

  private Expectations expectations(Pair pair) {
    return tables.growth.expect(
        tables.stocks.get(pair.stock).growth(),
        tables.varieties.get(pair.variety).growth(),
        siteGrowth,
        question.goal());
  }

  /**
   * Mean satisfaction of a pairing by a criterion of the tree as a whole; see {@link Field#SIZE}.
   */
  double met(int kind, int i) {
    Pair pair = pairs.get(i);
    return field.met(
        kind,
        tables.stocks.get(pair.stock).scores(),
        tables.varieties.get(pair.variety).scores(),
        tree(pair));
  }

  /** Mean of weight times satisfaction of the match of vigour. */
  double matchMean(int i) {
    Pair pair = pairs.get(i);
    return matchWeightMean
        * matchMet(tables.stocks.get(pair.stock), tables.varieties.get(pair.variety));
  }

  /** Mean of weight times satisfaction of availability. */
  double availableMean(int i) {
    return pairs.get(i).sku == null ? 0 : availableWeightMean;
  }

  /**
   * 0 to 1: low where variety and stock are both weak or both strong, high where one balances the
   * other; 0.6 for a middling variety.
   */
  static double matchMet(StockRow stock, VarietyRow variety) {
    double vigour = variety.growth().lengthFactor().mu() / 0.12;
    double size = (stock.growth().size().value().mu() - Math.log(0.5)) / 0.5;
    return 0.6 - 0.4 * Math.max(-1, Math.min(1, vigour * size));
  }

  /** Subjects whose own limits rule out every pairing they enter. */
  private static BitSet ruledOut(List<@Nullable Panel> panels) {
    BitSet out = new BitSet();
    for (int k = 0; k < panels.size(); k++) {
      Panel panel = panels.get(k);
      if (panel != null && panel.rulesOut()) out.set(k);
    }
    return out;
  }

  /**
   * Pairings that an answer lists, in order of merit: at most one of each stock or variety where
   * that was asked for.
   */
  Shortlist shown() {
    return Shortlist.of(this);
  }

  /** All limits of a pairing with their mean factors. */
  List<Panel.Factor> factors(int i) {
    Pair pair = pairs.get(i);
    if (Double.isNaN(field.sizeLimit[i]))
      utility(i, new double[Draws.COUNT]); // ruled out unseen, and now spoken of
    List<Panel.Factor> factors = new ArrayList<>(panel(stocks, pair.stock).limits());
    factors.addAll(panel(varieties, pair.variety).limits());
    factors.add(Panel.Factor.of(Criteria.SIZE, field.sizeLimit[i]));
    factors.add(
        Panel.Factor.of(Criteria.COMPATIBILITY, tables.union(pair.stock, pair.variety).chance()));
    return factors;
  }

  private Comparator<Integer> merit() {
    return Comparator.comparingDouble((Integer i) -> -field.score[i])
        .thenComparing(i -> tables.stocks.get(pairs.get(i).stock).stock().id())
        .thenComparing(i -> tables.varieties.get(pairs.get(i).variety).variety().id());
  }

  Panel stockPanel(int i) {
    return panel(stocks, pairs.get(i).stock);
  }

  Panel varietyPanel(int i) {
    return panel(varieties, pairs.get(i).variety);
  }

  private static Panel panel(List<@Nullable Panel> panels, int index) {
    return Objects.requireNonNull(panels.get(index));
  }

  private int indexOf(Criterion criterion) {
    for (int c = 0; c < active.size(); c++) if (active.get(c).criterion() == criterion) return c;
    return -1;
  }

  /** Mean weight of a criterion; 0 for one that is only a limit. */
  double weightMean(Criterion criterion) {
    int c = indexOf(criterion);
    return c < 0 ? 0 : weights.mean(c);
  }

  private double[] weightOf(Criterion criterion) {
    int c = indexOf(criterion);
    return c < 0 ? NOTHING : weights.of(c);
  }
}
