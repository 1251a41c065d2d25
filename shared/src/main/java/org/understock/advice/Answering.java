package org.understock.advice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.apache.commons.numbers.arrays.Selection;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Grade;
import org.understock.evidence.TraitBook;
import org.understock.growth.Part;
import org.understock.plant.Stock;
import org.understock.pollination.Partner;
import org.understock.wording.Words;

/**
 * Turns the judged pairings into an answer: picks those that are shown, and finds the words,
 * cautions and sources for them.
 */
final class Answering {
  private static final int PARTNERS = 5;

  private static final int TENTH = rank(0.1);
  private static final int NINTH = rank(0.9);

  /** Weight from which a criterion without evidence is worth telling. */
  private static final double TELLING = 0.03;

  /** A best score below this needs a word of explanation. */
  private static final double LOW = 50;

  private final Judging judging;
  private final List<Advice.Assumption> assumptions;
  private final Effects effects;
  private final Wording wording;
  private final Words words;
  private final Set<String> cited = new LinkedHashSet<>();

  Answering(Judging judging, List<Advice.Assumption> assumptions) {
    this.judging = judging;
    this.assumptions = assumptions;
    effects = new Effects(judging);
    wording = new Wording(judging);
    words = Words.in(judging.question.language());
  }

  Advice answer() {
    Shortlist shown = judging.shown();
    List<Advice.Advised> advised = new ArrayList<>();
    for (int k = 0; k < Math.min(shown.size(), judging.question.limit()); k++) {
      int i = shown.order().get(k);
      advised.add(
          advised(
              k + 1,
              i,
              shown.alsoClones(i),
              k + 1 < shown.size() ? shown.order().get(k + 1) : null));
    }
    List<Integer> out = new ArrayList<>();
    for (int i = 0; i < judging.pairs.size(); i++) if (judging.field.out[i]) out.add(i);
    List<Advice.RuledOut> ruledOut =
        unlike(out).stream().limit(judging.question.limit()).map(this::ruledOut).toList();
    return new Advice(
        judging.tables.book.revision(),
        judging.pairs.size(),
        tenth(judging.meanScore),
        reach(),
        weights(),
        assumptions,
        advised,
        ruledOut,
        out.size(),
        Notices.of(
            judging.question.site(),
            judging.question.goal(),
            judging.question.units(),
            judging.frosts,
            words),
        sources());
  }

  /**
   * One for each stock and each variety that is out first: a stock is not told once for every
   * variety while others wait.
   */
  private List<Integer> unlike(List<Integer> out) {
    Set<Integer> stocks = new HashSet<>();
    Set<Integer> varieties = new HashSet<>();
    List<Integer> first = new ArrayList<>();
    List<Integer> others = new ArrayList<>();
    for (int i : out) {
      Judging.Pair pair = judging.pairs.get(i);
      boolean fresh =
          judging.varietyPanel(i).rulesOut()
              ? varieties.add(pair.variety())
              : stocks.add(pair.stock());
      (fresh ? first : others).add(i);
    }
    first.addAll(others);
    return first;
  }

  private Advice.Reach reach() {
    if (judging.order.isEmpty()) return new Advice.Reach(0, words.say("reach.none"));
    int best = judging.order.get(0);
    List<Map.Entry<Criterion, Double>> costs = new ArrayList<>(effects.costs(best).entrySet());
    costs.sort(
        Comparator.comparingLong((Map.Entry<Criterion, Double> e) -> -Math.round(10 * e.getValue()))
            .thenComparing(e -> e.getKey().id()));
    List<String> most =
        costs.stream().filter(e -> e.getValue() >= 1).limit(3).map(this::points).toList();
    double score = tenth(judging.field.score[best]);
    String text =
        words.say(
            "reach",
            "pairings",
            judging.pairs.size(),
            "score",
            score,
            "losses",
            most.isEmpty() ? "none" : words.all(most));
    return new Advice.Reach(score, score < LOW ? text + " " + words.say("reach.low") : text);
  }

  private Advice.Advised advised(int rank, int i, List<Stock> alsoClones, @Nullable Integer next) {
    Judging.Pair pair = judging.pairs.get(i);
    StockRow stock = judging.tables.stocks.get(pair.stock());
    VarietyRow variety = judging.tables.varieties.get(pair.variety());
    double[] utility = judging.utility(i);
    double[] ranked = utility.clone();
    Selection.select(ranked, new int[] {TENTH, NINTH});
    List<Advice.Caution> cautions = Cautions.of(judging, i);
    for (Advice.Caution caution : cautions) cited.addAll(caution.records());
    List<Partner> partners = judging.tables.pollination.partners(variety.variety().id(), PARTNERS);
    return new Advice.Advised(
        rank,
        stock.stock(),
        variety.variety(),
        pair.sku(),
        tenth(judging.field.score[i]),
        tenth(ranked[TENTH]),
        tenth(ranked[NINTH]),
        percentOfBest(i),
        Math.round(100.0 * judging.field.timesBest[i] / Draws.COUNT) / 100.0,
        alsoClones,
        reasons(i),
        cautions,
        judging.expectations(i),
        partners,
        thin(stock, variety),
        next == null ? null : aheadOf(i, utility, next));
  }

  private int percentOfBest(int i) {
    double best = judging.field.score[judging.order.get(0)];
    return best > 0 ? (int) Math.round(100 * judging.field.score[i] / best) : 100;
  }

  private List<Advice.Reason> reasons(int i) {
    List<Advice.Reason> reasons = new ArrayList<>();
    for (Map.Entry<Criterion, Double> effect : effects.of(i).entrySet()) {
      Criterion criterion = effect.getKey();
      if (effect.getValue() == 0 && judging.weightMean(criterion) < TELLING) continue;
      Wording.Said said = wording.of(criterion, i);
      cited.addAll(said.records());
      reasons.add(
          new Advice.Reason(
              criterion.id(),
              effect.getValue(),
              Math.round(100 * met(criterion, i)) / 100.0,
              said.text(),
              said.records()));
    }
    reasons.sort(
        Comparator.comparingDouble((Advice.Reason r) -> -Math.abs(r.effect()))
            .thenComparing(Advice.Reason::criterion));
    return List.copyOf(reasons);
  }

  private double met(Criterion criterion, int i) {
    Judging.Pair pair = judging.pairs.get(i);
    if (criterion == Criteria.SIZE) return judging.met(Field.SIZE, i);
    if (criterion == Criteria.EARLY) return judging.met(Field.EARLY, i);
    if (criterion == Criteria.YIELD) return judging.met(Field.YIELD, i);
    if (criterion == Criteria.LIFE) return judging.met(Field.LIFE, i);
    if (criterion == Criteria.MATCH)
      return Judging.matchMet(
          judging.tables.stocks.get(pair.stock()), judging.tables.varieties.get(pair.variety()));
    if (criterion == Criteria.AVAILABILITY) return pair.sku() == null ? 0 : 1;
    for (int c = 0; c < judging.active.size(); c++) {
      if (judging.active.get(c).criterion() != criterion) continue;
      double stock = judging.stockPanel(i).met()[c];
      double variety = judging.varietyPanel(i).met()[c];
      return Double.isNaN(stock) ? variety : Double.isNaN(variety) ? stock : (stock + variety) / 2;
    }
    return judging.factors(i).stream()
        .filter(f -> f.criterion() == criterion)
        .mapToDouble(Panel.Factor::mean)
        .min()
        .orElse(1);
  }

  private String aheadOf(int i, double[] utility, int next) {
    double[] other = judging.utility(next);
    int won = 0;
    for (int d = 0; d < Draws.COUNT; d++) if (utility[d] > other[d]) won++;
    List<Map.Entry<Criterion, Double>> points =
        new ArrayList<>(effects.difference(i, next).entrySet());
    // By what is shown, then by name: the last digits of a sum must not choose the words.
    points.sort(
        Comparator.comparingLong((Map.Entry<Criterion, Double> e) -> -Math.round(10 * e.getValue()))
            .thenComparing(e -> e.getKey().id()));
    List<String> ahead =
        points.stream().filter(e -> e.getValue() >= 0.05).limit(2).map(this::points).toList();
    List<String> behind = new ArrayList<>();
    for (int k = points.size() - 1; k >= 0 && behind.size() < 1; k--)
      if (points.get(k).getValue() <= -0.05) behind.add(points(points.get(k)));
    Judging.Pair pair = judging.pairs.get(next);
    return words.say(
        "ahead",
        "variety",
        judging.tables.varieties.get(pair.variety()).variety().name(),
        "stock",
        judging.tables.stocks.get(pair.stock()).stock().name(),
        "won",
        Math.round(100.0 * won / Draws.COUNT),
        "ahead",
        ahead.isEmpty() ? "none" : words.all(ahead),
        "behind",
        behind.isEmpty() ? "none" : behind.get(0));
  }

  private String points(Map.Entry<Criterion, Double> entry) {
    return words.say(
        "points",
        "label",
        Words.within(entry.getKey().label(words)),
        "points",
        Math.abs(entry.getValue()));
  }

  private List<Advice.Thin> thin(StockRow stock, VarietyRow variety) {
    List<Advice.Thin> thin = new ArrayList<>();
    String name = stock.stock().name();
    part(thin, "size", stock.growth().size(), name);
    part(thin, "years-to-first-crop", stock.growth().firstCropYear(), name);
    part(thin, "mature-yield", stock.growth().matureYieldKg(), name);
    part(thin, "lifespan", stock.growth().lifeYears(), name);
    for (int c = 0; c < judging.active.size(); c++) {
      Rated rated = judging.active.get(c).rated();
      if (rated == null || judging.weights.mean(c) < TELLING) continue;
      String trait = rated.parts().get(0).trait();
      LevelDraws draws = stock.levels().get(trait);
      if (draws != null && !draws.known())
        thin.add(
            new Advice.Thin(
                trait, words.say("thin.rating", "stock", name, "topic", rated.topic())));
    }
    if (!stock.advised())
      thin.add(new Advice.Thin("stock", words.say("thin.unadvised", "name", name)));
    if (!variety.advised())
      thin.add(
          new Advice.Thin(
              "variety", words.say("thin.unadvised", "name", variety.variety().name())));
    return List.copyOf(thin);
  }

  private void part(List<Advice.Thin> thin, String trait, Part part, String stock) {
    String key =
        part.thin()
            ? "thin.missing"
            : LevelWords.leansOnMemory(judging.tables.book, part.records()) ? "thin.memory" : null;
    if (key != null)
      thin.add(new Advice.Thin(trait, words.say(key, "trait", trait, "stock", stock)));
  }

  private Advice.RuledOut ruledOut(int i) {
    Judging.Pair pair = judging.pairs.get(i);
    List<Advice.Limit> limits = new ArrayList<>();
    Set<Criterion> seen = new HashSet<>();
    for (Panel.Factor factor : judging.factors(i)) {
      if (factor.mean() >= Field.RULED_OUT_BELOW || !seen.add(factor.criterion())) continue;
      Wording.Said said = wording.of(factor.criterion(), i);
      cited.addAll(said.records());
      limits.add(new Advice.Limit(factor.criterion().id(), said.text(), said.records()));
    }
    return new Advice.RuledOut(
        judging.tables.stocks.get(pair.stock()).stock(),
        judging.tables.varieties.get(pair.variety()).variety(),
        pair.sku(),
        limits);
  }

  private List<Advice.Weighted> weights() {
    List<Advice.Weighted> weights = new ArrayList<>();
    for (int c = 0; c < judging.active.size(); c++) {
      Criterion criterion = judging.active.get(c).criterion();
      weights.add(
          new Advice.Weighted(
              criterion.id(),
              criterion.label(words),
              Math.round(1000 * judging.weights.mean(c)) / 1000.0));
    }
    weights.sort(
        Comparator.comparingDouble((Advice.Weighted w) -> -w.weight())
            .thenComparing(Advice.Weighted::criterion));
    return List.copyOf(weights);
  }

  /** Sources behind every record cited in the answer, by id. */
  private List<Advice.Cited> sources() {
    TraitBook book = judging.tables.book;
    Map<String, Grade> grades = new TreeMap<>();
    for (String id : cited)
      book.record(id)
          .ifPresent(
              record ->
                  grades.merge(
                      record.source(),
                      book.grade(record),
                      (one, other) -> one.compareTo(other) <= 0 ? one : other));
    return grades.entrySet().stream()
        .map(
            e ->
                new Advice.Cited(
                    Objects.requireNonNull(book.evidence().sources().get(e.getKey())),
                    e.getValue()))
        .toList();
  }

  /** Place of a quantile among the draws in order. */
  private static int rank(double p) {
    return (int) Math.min(Draws.COUNT - 1, Math.floor(p * Draws.COUNT));
  }

  /** A quantile of sorted draws. */
  static double quantile(double[] sorted, double p) {
    return sorted[rank(p)];
  }

  static double tenth(double score) {
    return Math.round(1000 * score) / 10.0;
  }
}
