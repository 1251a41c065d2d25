package org.understock.advice;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.understock.growth.Expectations;
import org.understock.growth.SiteGrowth;

/**
 * The scoring of one request: panels of the stocks and varieties that take part, then one pass over the pairings. What it leaves behind are arrays
 * by pairing ({@link Field}) and the order of merit; words are made later, and only for the pairings that the answer shows.
 */
final class Judging {
  /** One candidate: indices into the crop's tables, and the asker's own stock-keeping unit. */
  record Pair(int stock, int variety, @Nullable String sku) {}

  final CropTables tables;
  final Question question;
  final List<Pair> pairs;
  final List<Active> active;
  final Weights weights;
  final List<@Nullable Panel> stocks;
  final List<@Nullable Panel> varieties;
  final Field field;
  /** Pairings that were not ruled out, best first. */
  final List<Integer> order;
  final double meanScore;

  private final SiteGrowth siteGrowth;
  private final PairingJudgement judge;
  private final double[][] kindWeights = new double[Field.KINDS][];
  private final double[] constant = new double[Draws.COUNT];
  private final double @Nullable [] matchWeight;
  private final double @Nullable [] availableWeight;

  Judging(CropTables tables, Question question, List<Pair> pairs, List<Active> active) {
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
    Side side = new Side(tables, question.site(), question.goal(), active, weights);
    stocks = Side.panels(tables.stocks, usedStocks, side::of);
    varieties = Side.panels(tables.varieties, usedVarieties, side::of);
    judge = new PairingJudgement(question.goal(), tables.usualYieldKgPerM2);
    siteGrowth = tables.growth.site(question.site());
    kindWeights[Field.SIZE] = weightOf(Criteria.SIZE);
    kindWeights[Field.EARLY] = weightOf(Criteria.EARLY);
    kindWeights[Field.YIELD] = weightOf(Criteria.YIELD);
    kindWeights[Field.LIFE] = weightOf(Criteria.LIFE);
    int match = indexOf(Criteria.MATCH);
    matchWeight = match < 0 ? null : weights.of(match);
    int available = indexOf(Criteria.AVAILABILITY);
    availableWeight = available < 0 ? null : weights.of(available);
    field = new Field(pairs.size());
    run();
    order = IntStream.range(0, pairs.size()).filter(i -> !field.out[i]).boxed().sorted(merit()).toList();
    meanScore = order.stream().mapToDouble(i -> field.score[i]).average().orElse(0);
  }

  private void run() {
    double[] utility = new double[Draws.COUNT];
    for (int i = 0; i < pairs.size(); i++) {
      utility(i, utility);
      field.out[i] = ruledOut(i);
      if (!field.out[i]) field.enter(i, utility);
    }
    field.close();
  }

  /** Utility by draw of one pairing, into the given array; its means are entered in the field. */
  double[] utility(int i, double[] utility) {
    Pair pair = pairs.get(i);
    StockRow stock = tables.stocks.get(pair.stock);
    VarietyRow variety = tables.varieties.get(pair.variety);
    Expectations tree = expectations(i);
    java.util.Arrays.fill(constant, 0);
    double matchMet = matchMet(stock, variety);
    double availableMet = pair.sku == null ? 0 : 1;
    double matchSum = 0;
    double availableSum = 0;
    if (matchWeight != null) {
      for (int d = 0; d < Draws.COUNT; d++) matchSum += constant[d] = matchWeight[d] * matchMet;
    }
    if (availableWeight != null && availableMet > 0) {
      for (int d = 0; d < Draws.COUNT; d++) {
        constant[d] += availableWeight[d];
        availableSum += availableWeight[d];
      }
    }
    field.matchMean[i] = matchSum / Draws.COUNT;
    field.availableMean[i] = availableSum / Draws.COUNT;
    double ground = Math.log(tree.inRowM() * tree.rowM());
    Field.Tree logs = new Field.Tree(tree.heightM().mu(), tree.heightM().sigma(), tree.spreadM().mu(), tree.spreadM().sigma(),
        tree.firstCropYear().mu(), tree.firstCropYear().sigma(), tree.matureYieldKg().mu() - ground, tree.matureYieldKg().sigma(),
        tree.lifeYears().mu(), tree.lifeYears().sigma());
    return field.score(i, stock.scores(), variety.scores(), panel(stocks, pair.stock), panel(varieties, pair.variety), logs, judge, kindWeights,
        tables.union(pair.stock, pair.variety).chance(), constant, utility);
  }

  Expectations expectations(int i) {
    Pair pair = pairs.get(i);
    return tables.growth.expect(tables.stocks.get(pair.stock).growth(), tables.varieties.get(pair.variety).growth(), siteGrowth, question.goal());
  }

  /** 0 to 1: low where variety and stock are both weak or both strong, high where one balances the other; 0.6 for a middling variety. */
  static double matchMet(StockRow stock, VarietyRow variety) {
    double vigour = variety.growth().lengthFactor().mu() / 0.12;
    double size = (stock.growth().size().value().mu() - Math.log(0.5)) / 0.5;
    return 0.6 - 0.4 * Math.max(-1, Math.min(1, vigour * size));
  }

  private boolean ruledOut(int i) {
    Pair pair = pairs.get(i);
    return field.sizeLimit[i] < Field.RULED_OUT_BELOW || tables.union(pair.stock, pair.variety).chance() < Field.RULED_OUT_BELOW
        || panel(stocks, pair.stock).rulesOut() || panel(varieties, pair.variety).rulesOut();
  }

  /** All limits of a pairing with their mean factors. */
  List<Panel.Factor> factors(int i) {
    Pair pair = pairs.get(i);
    List<Panel.Factor> factors = new ArrayList<>(panel(stocks, pair.stock).limits());
    factors.addAll(panel(varieties, pair.variety).limits());
    factors.add(new Panel.Factor(Criteria.SIZE, field.sizeLimit[i]));
    factors.add(new Panel.Factor(Criteria.COMPATIBILITY, tables.union(pair.stock, pair.variety).chance()));
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

  private double[] weightOf(Criterion criterion) {
    int c = indexOf(criterion);
    return c < 0 ? new double[Draws.COUNT] : weights.of(c);
  }
}
