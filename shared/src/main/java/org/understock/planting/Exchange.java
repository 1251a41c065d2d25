package org.understock.planting;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Betters a choice of partners on plots too large for an exact search: with one partner too few, it
 * goes on taking one away and putting one elsewhere until every tree is served, then tries with one
 * fewer again.
 *
 * <p>Local search for set covering with weights on what is not served: the longer a tree goes
 * without, the more it weighs, so that the search is driven out of places where it would stay (Gao,
 * Weise and Li 2014, "An efficient local search heuristic with row weighting for the unicost set
 * covering problem", European Journal of Operational Research; from memory). The number of steps is
 * fixed by the number of trees, and the draws by a fixed seed: the same plot gives the same answer.
 */
final class Exchange {
  /**
   * Steps times trees: how long it may take, counted and not timed. No sum of weights is above it
   * by more than the number of trees.
   */
  private static final long WORK = 200_000_000;

  private static final int MOST_STEPS = 20_000;

  /** Steps in which a place that was left or taken is let be. */
  private static final int REST = 3;

  private final Reach reach;
  private final BitSet free;
  private final int n;
  private final int[] times;
  private final int[] weight;

  /**
   * Running sums of the weight of trees that no partner serves, and of those that just one does.
   */
  private final int[] unserved;

  private final int[] onlyOne;
  private final int[] quietUntil;
  private final List<Integer> chosen = new ArrayList<>();
  private final SplittableRandom random = new SplittableRandom(1);

  private Exchange(int trees, Reach reach, BitSet needs, BitSet free, List<Integer> start) {
    n = trees;
    this.reach = reach;
    this.free = free;
    times = new int[n];
    weight = new int[n];
    unserved = new int[n + 1];
    onlyOne = new int[n + 1];
    quietUntil = new int[n];
    for (int i = needs.nextSetBit(0); i >= 0; i = needs.nextSetBit(i + 1)) weight[i] = 1;
    for (int place : start) {
      chosen.add(place);
      reach.add(place, times, 1);
    }
  }

  /**
   * @param start a choice that serves every tree in need
   * @param bound with as few it is enough
   * @return a choice that serves every tree in need with as many partners or fewer
   */
  static List<Integer> better(
      int trees, Reach reach, BitSet needs, BitSet free, List<Integer> start, int bound) {
    if (start.size() <= bound) return start;
    return new Exchange(trees, reach, needs, free, start).search(start, bound);
  }

  private List<Integer> search(List<Integer> start, int bound) {
    List<Integer> best = start;
    int steps = (int) Math.min(MOST_STEPS, WORK / n);
    int open = sum(0);
    for (int step = 1; step <= steps; step++) {
      while (open == 0) {
        best = List.copyOf(chosen);
        if (best.size() <= bound) return best;
        leave(0);
        open = sum(0);
      }
      leave(step);
      open = sum(0);
      if (open > 0) take(open, step);
      open = sum(1);
    }
    return best;
  }

  /**
   * Sums the weights anew; answers how many trees are not served.
   *
   * @param more what each of those is to weigh more from now on
   */
  private int sum(int more) {
    int open = 0;
    int none = 0;
    int one = 0;
    for (int i = 0; i < n; i++) {
      int w = weight[i]; // 0 for a tree that is not in need
      int t = times[i];
      if (t == 0 && w > 0) {
        open++;
        w += more;
        weight[i] = w;
        none += w;
      } else if (t == 1) {
        one += w;
      }
      unserved[i + 1] = none;
      onlyOne[i + 1] = one;
    }
    return open;
  }

  /** Takes away the partner that would be missed least, those just put there excepted. */
  private void leave(int step) {
    int least = -1;
    int loss = Integer.MAX_VALUE;
    for (int k = 0; k < chosen.size(); k++) {
      if (quietUntil[chosen.get(k)] > step && step > 0) continue;
      int missed = reach.sum(chosen.get(k), onlyOne);
      if (missed < loss) {
        loss = missed;
        least = k;
      }
    }
    if (least < 0) return;
    int place = chosen.remove(least);
    quietUntil[place] = step + REST;
    reach.add(place, times, -1);
  }

  /** Puts a partner within reach of a tree drawn from those not served, where it serves most. */
  private void take(int open, int step) {
    int skip = random.nextInt(open);
    int tree = 0;
    while (weight[tree] == 0 || times[tree] > 0 || skip-- > 0) tree++;
    int best = -1;
    int gain = -1;
    int[] runs = reach.runs[tree];
    for (int k = 0; k < runs.length; k += 2) {
      for (int j = free.nextSetBit(runs[k]);
          j >= 0 && j < runs[k + 1];
          j = free.nextSetBit(j + 1)) {
        if (quietUntil[j] > step) continue;
        int served = reach.sum(j, unserved);
        if (served > gain) {
          gain = served;
          best = j;
        }
      }
    }
    if (best < 0) return;
    chosen.add(best);
    quietUntil[best] = step + REST;
    reach.add(best, times, 1);
  }
}
