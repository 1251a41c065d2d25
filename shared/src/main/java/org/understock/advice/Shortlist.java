package org.understock.advice;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.understock.plant.Stock;

/**
 * Which of the judged pairings an answer lists, in order of merit: at most one of each stock or
 * variety where that was asked for, and clones of one stock under the same variety in one place as
 * long as they are not to be told apart, so that five clones of M.9 do not take five places.
 *
 * <p>Two are told apart when the better one is ahead in three draws of four. Clones that the asker
 * named are never folded: who names them wants to see them.
 */
final class Shortlist {
  /**
   * Share of the draws in which the better of two must be ahead for them to be told apart: a
   * judgement.
   */
  private static final double APART = 0.75;

  private final Judging judging;
  private final List<Integer> order = new ArrayList<>();
  private final Map<Integer, List<Stock>> clones = new HashMap<>();

  private Shortlist(Judging judging) {
    this.judging = judging;
  }

  static Shortlist of(Judging judging) {
    Shortlist list = new Shortlist(judging);
    switch (judging.question.bestPer()) {
      case PAIRING -> list.fold(judging.order);
      case STOCK -> list.firstOfEach(judging.order, Question.BestPer.STOCK);
      case VARIETY -> {
        list.fold(judging.order);
        List<Integer> folded = List.copyOf(list.order);
        list.order.clear();
        list.firstOfEach(folded, Question.BestPer.VARIETY);
      }
    }
    return list;
  }

  List<Integer> order() {
    return order;
  }

  int size() {
    return order.size();
  }

  /** The clones folded into a listed pairing, by id. */
  List<Stock> alsoClones(int i) {
    return clones.getOrDefault(i, List.of()).stream()
        .sorted(java.util.Comparator.comparing(Stock::id))
        .toList();
  }

  private void firstOfEach(List<Integer> from, Question.BestPer per) {
    Set<Integer> seen = new HashSet<>();
    for (int i : from)
      if (seen.add(
          per == Question.BestPer.STOCK
              ? judging.pairs.get(i).stock()
              : judging.pairs.get(i).variety())) order.add(i);
  }

  private void fold(List<Integer> from) {
    boolean stocksOpen =
        judging.question.candidates().stocks().isEmpty()
            && judging.question.candidates().pairings().isEmpty();
    if (!stocksOpen) {
      order.addAll(from);
      return;
    }
    BitSet families = families();
    Map<Long, List<Integer>> heads = new HashMap<>();
    int wanted =
        judging.question.limit()
            + 1; // one more than is shown, to say what the last one shown is ahead of
    for (int i : from) {
      if (!families.get(judging.pairs.get(i).stock())) {
        order.add(i);
        continue;
      }
      List<Integer> family = heads.computeIfAbsent(family(i), key -> new ArrayList<>(1));
      Integer head = family.stream().filter(h -> !apart(h, i)).findFirst().orElse(null);
      if (head != null) {
        clones
            .computeIfAbsent(head, h -> new ArrayList<>())
            .add(judging.tables.stocks.get(judging.pairs.get(i).stock()).stock());
      } else {
        order.add(i);
        if (judging.question.bestPer() == Question.BestPer.VARIETY || order.size() <= wanted)
          family.add(i);
      }
    }
  }

  /** Stocks that have clones or are clones of a stock in the crop. */
  private BitSet families() {
    BitSet families = new BitSet();
    for (int s = 0; s < judging.tables.stocks.size(); s++) {
      String parent = judging.tables.stocks.get(s).stock().cloneOf();
      if (parent == null) continue;
      families.set(s);
      judging.tables.stock(parent).ifPresent(families::set);
    }
    return families;
  }

  /** A stock and its clones under one variety. */
  private long family(int i) {
    Judging.Pair pair = judging.pairs.get(i);
    Stock stock = judging.tables.stocks.get(pair.stock()).stock();
    int root =
        stock.cloneOf() == null
            ? pair.stock()
            : judging.tables.stock(stock.cloneOf()).orElse(pair.stock());
    return (long) root << 32 | pair.variety();
  }

  private boolean apart(int better, int other) {
    double[] one = judging.utility(better);
    double[] two = judging.utility(other);
    int ahead = 0;
    for (int d = 0; d < Draws.COUNT; d++) if (one[d] > two[d]) ahead++;
    return ahead >= APART * Draws.COUNT;
  }
}
