package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.PriorityQueue;

/**
 * The fewest partner trees such that every tree in need has one within reach. A tree that becomes a
 * partner needs none itself.
 *
 * <p>An integer choice (least dominating set). Good answers come from a greedy choice and from
 * hexagonal patterns laid over the plot, each rid of what is not needed; on small plots a branch
 * and bound search settles it, on large ones {@link Exchange} betters it. The bound is a feasible
 * solution of the linear programme's dual, so that no choice whatever can do with fewer.
 */
final class Cover {
  /**
   * Trees in need up to which the search is tried, and the steps after which it gives up: how long
   * it may take, counted and not timed.
   */
  private static final int SEARCHED = 500;

  private static final int MOST_STEPS = 60_000;

  /** Rounds of evening out prices: the fewer, the more trees there are. */
  private static final int ROUNDS_BY_TREES = 2_000_000;

  private static final int LEAST_ROUNDS = 60;
  private static final int MOST_ROUNDS = 600;

  private final Standing trees;
  private final double distanceM;
  private final Reach reach;
  private final BitSet needs;
  private final BitSet free;

  private Cover(Standing trees, double distanceM, Reach reach, BitSet needs, BitSet free) {
    this.trees = trees;
    this.distanceM = distanceM;
    this.reach = reach;
    this.needs = needs;
    this.free = free;
  }

  /**
   * @param chosen places of the partners, in order
   * @param bound no choice has fewer
   * @param price part of the bound that each tree in need brings; no partner can serve trees that
   *     together bring more than 1
   * @param missed trees in need that no free place can serve
   */
  record Choice(List<Integer> chosen, int bound, double[] price, BitSet missed) {
    boolean isFewest() {
      return chosen.size() == bound;
    }
  }

  /**
   * @param needs trees that need a partner
   * @param free places that a partner may take
   */
  static Choice fewest(Standing trees, double distanceM, Reach reach, BitSet needs, BitSet free) {
    BitSet missed = new BitSet();
    for (int i = needs.nextSetBit(0); i >= 0; i = needs.nextSetBit(i + 1))
      if (!meets(reach.runs[i], free)) missed.set(i);
    BitSet served = (BitSet) needs.clone();
    served.andNot(missed);
    return new Cover(trees, distanceM, reach, served, free).choice(missed);
  }

  private static boolean meets(int[] runs, BitSet set) {
    for (int k = 0; k < runs.length; k += 2) {
      int next = set.nextSetBit(runs[k]);
      if (next >= 0 && next < runs[k + 1]) return true;
    }
    return false;
  }

  private Choice choice(BitSet missed) {
    double[] price = new double[trees.size];
    if (needs.isEmpty()) return new Choice(List.of(), 0, price, missed);
    double sum = prices(price);
    int bound = Math.max(1, (int) Math.ceil(sum - 1e-9));
    List<Integer> best = without(greedy(new BitSet(), List.of()));
    for (int k = 0; k < 32 && best.size() > bound; k++) {
      List<Integer> pattern = without(greedy(covered(hexagons(k)), hexagons(k)));
      if (pattern.size() < best.size()) best = pattern;
    }
    if (best.size() > bound && needs.cardinality() <= SEARCHED) {
      Search search = new Search(price, best);
      search.from(needs, free, new ArrayList<>());
      best = search.best;
      if (search.steps <= MOST_STEPS) bound = best.size();
    }
    best = Exchange.better(trees.size, reach, needs, free, best, bound);
    List<Integer> sorted = settled(new ArrayList<>(best));
    sorted.sort(null);
    return new Choice(List.copyOf(sorted), bound, price, missed);
  }

  /**
   * Prices under which no partner serves more than 1; their sum is the bound. Softly evened out
   * over the plot, the best round kept.
   */
  private double prices(double[] best) {
    int n = trees.size;
    double[] price = new double[n];
    double[] load = new double[n];
    double[] sums = new double[n + 1];
    for (int i = needs.nextSetBit(0); i >= 0; i = needs.nextSetBit(i + 1)) price[i] = 1;
    double most = 0;
    int rounds = Math.max(LEAST_ROUNDS, Math.min(MOST_ROUNDS, ROUNDS_BY_TREES / n));
    for (int round = 0; round < rounds; round++) {
      Reach.running(price, sums);
      double heaviest = 0;
      for (int j = free.nextSetBit(0); j >= 0; j = free.nextSetBit(j + 1)) {
        load[j] = reach.sum(j, sums);
        heaviest = Math.max(heaviest, load[j]);
      }
      double scale = 1 / (heaviest * (1 + 1e-12));
      double sum = sums[n] * scale;
      if (sum > most) {
        most = sum;
        for (int i = 0; i < n; i++) best[i] = price[i] * scale;
      }
      for (int j = 0; j < n; j++) load[j] = free.get(j) ? power(load[j] / heaviest) : 0;
      Reach.running(load, sums);
      for (int i = needs.nextSetBit(0); i >= 0; i = needs.nextSetBit(i + 1)) {
        int count = 0;
        for (int k = 0; k < reach.runs[i].length; k += 2)
          count += reach.runs[i][k + 1] - reach.runs[i][k];
        price[i] =
            price[i] * scale / Math.max(1e-3, Math.sqrt(Math.sqrt(reach.sum(i, sums) / count)));
      }
    }
    return most;
  }

  private static double power(double x) {
    double two = x * x;
    double four = two * two;
    return four * four;
  }

  private record Gain(int place, int gain) implements Comparable<Gain> {
    @Override
    public int compareTo(Gain other) {
      return gain != other.gain
          ? Integer.compare(other.gain, gain)
          : Integer.compare(place, other.place);
    }
  }

  /** Goes on from a start, each time with the place that serves most of those still in need. */
  private List<Integer> greedy(BitSet alreadyServed, List<Integer> start) {
    BitSet left = (BitSet) needs.clone();
    left.andNot(alreadyServed);
    List<Integer> chosen = new ArrayList<>(start);
    PriorityQueue<Gain> queue = new PriorityQueue<>();
    for (int j = free.nextSetBit(0); j >= 0; j = free.nextSetBit(j + 1)) {
      int gain = count(j, left);
      if (gain > 0) queue.add(new Gain(j, gain));
    }
    while (!left.isEmpty()) {
      Gain top = queue.remove();
      int gain = count(top.place, left);
      if (gain < top.gain) {
        if (gain > 0) queue.add(new Gain(top.place, gain));
        continue;
      }
      chosen.add(top.place);
      serve(top.place, left);
    }
    return chosen;
  }

  private int count(int place, BitSet left) {
    int count = 0;
    int[] runs = reach.runs[place];
    for (int k = 0; k < runs.length; k += 2) {
      for (int i = left.nextSetBit(runs[k]); i >= 0 && i < runs[k + 1]; i = left.nextSetBit(i + 1))
        count++;
    }
    return count;
  }

  private void serve(int place, BitSet left) {
    int[] runs = reach.runs[place];
    for (int k = 0; k < runs.length; k += 2) left.clear(runs[k], runs[k + 1]);
  }

  private BitSet covered(List<Integer> chosen) {
    BitSet left = (BitSet) needs.clone();
    for (int place : chosen) serve(place, left);
    BitSet covered = (BitSet) needs.clone();
    covered.andNot(left);
    return covered;
  }

  /** Drops those without whom everyone is still served, the last taken first. */
  private List<Integer> without(List<Integer> chosen) {
    int[] times = new int[trees.size];
    for (int place : chosen) reach.add(place, times, 1);
    List<Integer> kept = new ArrayList<>(chosen);
    for (int k = kept.size() - 1; k >= 0; k--) {
      int place = kept.get(k);
      reach.add(place, times, -1);
      boolean missed = false;
      int[] runs = reach.runs[place];
      for (int r = 0; r < runs.length && !missed; r += 2) {
        for (int i = needs.nextSetBit(runs[r]);
            i >= 0 && i < runs[r + 1];
            i = needs.nextSetBit(i + 1)) if (times[i] == 0) missed = true;
      }
      if (missed) reach.add(place, times, 1);
      else kept.remove(k);
    }
    return kept;
  }

  /**
   * As many partners, each moved to where the farthest of the trees that have no other is nearest.
   */
  private List<Integer> settled(List<Integer> chosen) {
    int[] times = new int[trees.size];
    for (int place : chosen) reach.add(place, times, 1);
    List<Integer> settled = new ArrayList<>(chosen);
    for (int k = 0; k < settled.size(); k++) {
      int from = settled.get(k);
      reach.add(from, times, -1);
      BitSet own = new BitSet();
      int[] runs = reach.runs[from];
      for (int r = 0; r < runs.length; r += 2) {
        for (int i = needs.nextSetBit(runs[r]);
            i >= 0 && i < runs[r + 1];
            i = needs.nextSetBit(i + 1)) if (times[i] == 0) own.set(i);
      }
      int best = from;
      double nearest = farthest(from, own, Double.POSITIVE_INFINITY);
      for (int r = 0; r < runs.length; r += 2) {
        for (int j = free.nextSetBit(runs[r]);
            j >= 0 && j < runs[r + 1];
            j = free.nextSetBit(j + 1)) {
          double far = farthest(j, own, nearest);
          if (far < nearest - 1e-9 && !settled.contains(j)) {
            nearest = far;
            best = j;
          }
        }
      }
      settled.set(k, best);
      reach.add(best, times, 1);
    }
    return settled;
  }

  /** Distance to the farthest of some trees, or anything above the bound once that is passed. */
  private double farthest(int place, BitSet of, double bound) {
    double far = 0;
    for (int i = of.nextSetBit(0); i >= 0 && far < bound; i = of.nextSetBit(i + 1))
      far = Math.max(far, trees.distance(place, i));
    return far;
  }

  /**
   * A pattern of equal triangles, the sparsest in which discs cover the plane, moved and turned by
   * the number, each corner on its nearest tree.
   */
  private List<Integer> hexagons(int number) {
    double side = Math.sqrt(3) * distanceM * (number % 2 == 0 ? 0.97 : 0.9);
    double height = side * Math.sqrt(3) / 2;
    double shift = number / 4 % 4 / 4.0;
    double lift = number / 16 % 2 / 2.0;
    boolean turned = number / 2 % 2 == 1;
    double[] u = turned ? trees.along : trees.across;
    double[] v = turned ? trees.across : trees.along;
    double left = Arrays.stream(u).min().orElse(0);
    double low = Arrays.stream(v).min().orElse(0);
    double right = Arrays.stream(u).max().orElse(0);
    double high = Arrays.stream(v).max().orElse(0);
    BitSet chosen = new BitSet();
    int line = 0;
    for (double y = low + (lift - 0.5) * height; y <= high + height; y += height, line++) {
      for (double x = left + (shift - 0.75 + line % 2 / 2.0) * side; x <= right + side; x += side) {
        int nearest = -1;
        double best = distanceM / 2;
        for (int j = free.nextSetBit(0); j >= 0; j = free.nextSetBit(j + 1)) {
          double du = u[j] - x;
          double dv = v[j] - y;
          double d = Math.sqrt(du * du + dv * dv);
          if (d < best) {
            best = d;
            nearest = j;
          }
        }
        if (nearest >= 0) chosen.set(nearest);
      }
    }
    return chosen.stream().boxed().toList();
  }

  /**
   * Branch and bound: the tree in need that fewest places can serve is served by each of them in
   * turn.
   */
  private final class Search {
    private final double[] price;
    private List<Integer> best;
    private int steps;

    Search(double[] price, List<Integer> best) {
      this.price = price;
      this.best = best;
    }

    void from(BitSet left, BitSet open, List<Integer> chosen) {
      if (left.isEmpty()) {
        if (chosen.size() < best.size()) best = List.copyOf(chosen);
        return;
      }
      if (++steps > MOST_STEPS) return;
      double rest = 0;
      int hardest = -1;
      int fewest = Integer.MAX_VALUE;
      for (int i = left.nextSetBit(0); i >= 0; i = left.nextSetBit(i + 1)) {
        rest += price[i];
        int places = count(i, open);
        if (places < fewest) {
          fewest = places;
          hardest = i;
        }
      }
      int atLeast = Math.max(1, (int) Math.ceil(rest - 1e-9));
      if (fewest == 0 || chosen.size() + atLeast >= best.size()) return;
      List<Gain> places = new ArrayList<>();
      int[] runs = reach.runs[hardest];
      for (int k = 0; k < runs.length; k += 2) {
        for (int j = open.nextSetBit(runs[k]);
            j >= 0 && j < runs[k + 1];
            j = open.nextSetBit(j + 1)) places.add(new Gain(j, count(j, left)));
      }
      places.sort(null);
      BitSet still = (BitSet) open.clone();
      for (Gain place : places) {
        still.clear(place.place); // not again in the branches beside this one
        BitSet then = (BitSet) left.clone();
        serve(place.place, then);
        chosen.add(place.place);
        from(then, still, chosen);
        chosen.remove(chosen.size() - 1);
        if (steps > MOST_STEPS) return;
      }
    }
  }
}
