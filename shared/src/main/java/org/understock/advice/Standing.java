package org.understock.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * Who comes where in the answer to a {@link Question}, without words.
 *
 * @param considered number of candidate pairings looked at
 * @param meanScore mean score of those that were not ruled out
 * @param places the first places, as many as the question asks for
 * @param order every pairing that an answer without a limit would list, best first
 * @param ruledOut the pairings ruled out
 */
public record Standing(
    int considered,
    double meanScore,
    List<Place> places,
    List<Pairing> order,
    List<Pairing> ruledOut) {
  public Standing {
    places = List.copyOf(places);
    order = List.copyOf(order);
    ruledOut = List.copyOf(ruledOut);
  }

  /** A pairing by the ids of its stock and its variety. */
  public record Pairing(String stock, String variety) {}

  /** One place; numbers as in {@link Advice.Advised}. */
  public record Place(
      int rank, Stock stock, Variety variety, double score, double low, double high) {
    public Pairing pairing() {
      return new Pairing(stock.id(), variety.id());
    }
  }

  static Standing of(Judging judging) {
    List<Integer> shown = judging.shown().order();
    List<Place> places = new ArrayList<>();
    for (int k = 0; k < Math.min(shown.size(), judging.question.limit()); k++)
      places.add(place(judging, k + 1, shown.get(k)));
    List<Pairing> ruledOut = new ArrayList<>();
    for (int i = 0; i < judging.pairs.size(); i++)
      if (judging.field.out[i]) ruledOut.add(pairing(judging, i));
    // clones that an answer folds into one place keep their own here: what moves is to be seen
    List<Integer> merit =
        judging.question.bestPer() == Question.BestPer.PAIRING ? judging.order : shown;
    List<Pairing> order = merit.stream().map(i -> pairing(judging, i)).toList();
    return new Standing(
        judging.pairs.size(), Answering.tenth(judging.meanScore), places, order, ruledOut);
  }

  private static Place place(Judging judging, int rank, int i) {
    Judging.Pair pair = judging.pairs.get(i);
    double[] utility = judging.utility(i).clone();
    Arrays.sort(utility);
    double low = Answering.tenth(Answering.quantile(utility, 0.1));
    double high = Answering.tenth(Answering.quantile(utility, 0.9));
    return new Place(
        rank,
        judging.tables.stocks.get(pair.stock()).stock(),
        judging.tables.varieties.get(pair.variety()).variety(),
        Answering.tenth(judging.field.score[i]),
        low,
        high);
  }

  private static Pairing pairing(Judging judging, int i) {
    Judging.Pair pair = judging.pairs.get(i);
    return new Pairing(
        judging.tables.stocks.get(pair.stock()).stock().id(),
        judging.tables.varieties.get(pair.variety()).variety().id());
  }
}
