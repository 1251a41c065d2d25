package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;

/** Gives every place its pairing: shares first, then as few partners as do it, well spread. */
final class Mixing {
  /**
   * Distances in the row that differ by no more than this share are planted at the widest of them.
   */
  private static final double ALIKE = 1.1;

  /**
   * From this many trees on, whole rows are worth more than nearer partners: they are sprayed and
   * picked as one. A judgement.
   */
  private static final int WHOLE_ROWS_FROM = 100;

  /** Steps of spreading that are still quick. */
  private static final double MOST_SPREAD = 3e8;

  private final Rows rows;
  private final List<Planned> kinds;
  private final Pollen pollen;
  private final double beeDistanceM;
  private final double leastShare;
  private final int[] mains;
  private final List<Double> shares;
  private final int[] partners;
  private final double[] inRowM;

  /**
   * @param leastShare least share of partners among all trees, where partners are placed
   */
  Mixing(Rows rows, List<Planned> kinds, Pollen pollen, double beeDistanceM, double leastShare) {
    this.rows = rows;
    this.kinds = kinds;
    this.pollen = pollen;
    this.beeDistanceM = beeDistanceM;
    this.leastShare = leastShare;
    mains = IntStream.range(0, kinds.size()).filter(k -> !kinds.get(k).isPartner()).toArray();
    partners = IntStream.range(0, kinds.size()).filter(k -> kinds.get(k).isPartner()).toArray();
    shares =
        Arrays.stream(mains).mapToObj(k -> Objects.requireNonNull(kinds.get(k).share())).toList();
    inRowM = kinds.stream().mapToDouble(Planned::inRowM).toArray();
  }

  /**
   * Distance in the row for which rows are laid: the widest where partners are to be placed or the
   * pairings are alike, else the mean by shares.
   */
  static double laidFor(List<Planned> kinds) {
    if (isEven(kinds)) return kinds.stream().mapToDouble(Planned::inRowM).max().orElseThrow();
    return kinds.stream().mapToDouble(k -> k.inRowM() * Objects.requireNonNull(k.share())).sum();
  }

  /** Whether all trees stand at one distance in the row. */
  static boolean isEven(List<Planned> kinds) {
    double widest = kinds.stream().mapToDouble(Planned::inRowM).max().orElseThrow();
    double closest = kinds.stream().mapToDouble(Planned::inRowM).min().orElseThrow();
    return widest <= closest * ALIKE || kinds.stream().anyMatch(Planned::isPartner);
  }

  /**
   * @param most no more trees than this
   */
  Mixed mix(int most) {
    double widest = laidFor(kinds);
    boolean even = isEven(kinds);
    Mixed byRows = even ? evenly(widest, most, true) : byTheirOwn(most, true);
    boolean settled =
        byRows.trees().size >= WHOLE_ROWS_FROM
            && byRows.failing().isEmpty()
            && byRows.fewest() == 0;
    if (kinds.size() == 1 || settled) return byRows;
    Mixed spread = even ? evenly(widest, most, false) : byTheirOwn(most, false);
    return better(byRows, spread);
  }

  private static Mixed better(Mixed byRows, Mixed spread) {
    int failing = Integer.compare(byRows.failing().cardinality(), spread.failing().cardinality());
    if (failing != 0) return failing < 0 ? byRows : spread;
    if (byRows.fewest() != spread.fewest())
      return byRows.fewest() < spread.fewest() ? byRows : spread;
    return byRows.trees().size >= WHOLE_ROWS_FROM || !(spread.farthestM() < byRows.farthestM())
        ? byRows
        : spread;
  }

  private Mixed evenly(double spacing, int most, boolean wholeRows) {
    double[] same = new double[kinds.size()];
    Arrays.fill(same, spacing);
    Standing trees = Standing.fill(rows, new int[Math.min(most, rows.trees)], same);
    int[] kind = new int[trees.size];
    int[] all = IntStream.range(0, trees.size).toArray();
    share(trees, kind, all, wholeRows);
    Mixed mixed = Mixed.of(trees, kind, pollen, beeDistanceM, 0, 0, wholeRows);
    return partners.length == 0 || mixed.failing().isEmpty() ? mixed : partnered(mixed);
  }

  /**
   * Pairings that want very different room: each pair of neighbours at the mean of theirs, as many
   * as the rows hold in the shares asked for.
   */
  private Mixed byTheirOwn(int most, boolean wholeRows) {
    double closest = Arrays.stream(inRowM).min().orElseThrow();
    int upper = rows.stretches.stream().mapToInt(s -> s.holds(s.from(), closest)).sum();
    for (int n = Math.min(most, upper); ; ) {
      double[] mean = new double[kinds.size()];
      Arrays.fill(mean, laidFor(kinds));
      Standing guess = Standing.fill(rows, new int[n], mean);
      int[] sequence = new int[n];
      if (wholeRows && guess.size == n) byRows(guess, sequence, IntStream.range(0, n).toArray());
      else inTurn(sequence);
      Standing trees = Standing.fill(rows, sequence, inRowM);
      if (trees.size == n) return Mixed.of(trees, sequence, pollen, beeDistanceM, 0, 0, wholeRows);
      n = Math.max(1, trees.size);
    }
  }

  /** Each next tree of the pairing that is farthest behind its share. */
  private void inTurn(int[] sequence) {
    int[] left = Mixed.largestRemainder(sequence.length, shares);
    int[] whole = left.clone();
    for (int i = 0; i < sequence.length; i++) {
      int next = behind(whole, left, i + 1.0, sequence.length);
      sequence[i] = mains[next];
      left[next]--;
    }
  }

  /** The pairing that is most trees behind when so many of all are placed. */
  private static int behind(int[] whole, int[] left, double placed, int all) {
    int best = -1;
    double most = 0;
    for (int k = 0; k < whole.length; k++) {
      if (left[k] == 0) continue;
      double lag = placed * whole[k] / all - (whole[k] - left[k]);
      if (best < 0 || lag > most + 1e-9) {
        best = k;
        most = lag;
      }
    }
    return best;
  }

  /** Gives the main pairings their shares of some places. */
  private void share(Standing trees, int[] kind, int[] places, boolean wholeRows) {
    if (mains.length == 1) for (int i : places) kind[i] = mains[0];
    else if (wholeRows) byRows(trees, kind, places);
    else spread(trees, kind, places);
  }

  private void byRows(Standing trees, int[] kind, int[] places) {
    int[] left = Mixed.largestRemainder(places.length, shares);
    int[] whole = left.clone();
    int at = 0;
    while (at < places.length) {
      int end = at;
      while (end < places.length && trees.row[places[end]] == trees.row[places[at]]) end++;
      int next = behind(whole, left, (at + end) / 2.0, places.length);
      while (at < end) {
        if (left[next] == 0) next = behind(whole, left, (at + end) / 2.0, places.length);
        kind[places[at++]] = mains[next];
        left[next]--;
      }
    }
  }

  /**
   * The rarer a pairing, the sooner it is placed, each tree as far as can be from the others of its
   * kind; the commonest takes the rest.
   */
  private void spread(Standing trees, int[] kind, int[] places) {
    int[] counts = Mixed.largestRemainder(places.length, shares);
    Integer[] order =
        IntStream.range(0, mains.length)
            .boxed()
            .sorted(Comparator.comparingInt((Integer k) -> counts[k]))
            .toArray(Integer[]::new);
    int common = order[order.length - 1];
    for (int i : places) kind[i] = mains[common];
    if ((double) (places.length - counts[common]) * places.length > MOST_SPREAD) {
      byRows(trees, kind, places);
      return;
    }
    BitSet free = new BitSet();
    for (int i : places) free.set(i);
    for (int k : order) {
      if (k == common) break;
      for (int i : far(trees, free, seeds(trees, free, k, common, counts[k]), counts[k])) {
        kind[i] = mains[k];
        free.clear(i);
      }
    }
  }

  /**
   * Where the rare one pollinates the common one, the places that do it with the fewest come first.
   */
  private List<Integer> seeds(Standing trees, BitSet free, int rare, int common, int count) {
    if (pollen.needed[mains[common]] == 0 || !pollen.serves[mains[common]][mains[rare]])
      return List.of();
    Cover.Choice choice =
        Cover.fewest(trees, beeDistanceM, new Reach(trees, beeDistanceM), free, free);
    return choice.chosen().size() <= count ? choice.chosen() : List.of();
  }

  /**
   * So many free places, each next as far as can be from those before it; the first, if none is
   * given, nearest to the middle.
   */
  private static List<Integer> far(Standing trees, BitSet free, List<Integer> seeds, int count) {
    List<Integer> chosen = new ArrayList<>(seeds);
    if (count == 0) return chosen;
    double[] nearest = new double[trees.size];
    Arrays.fill(nearest, Double.POSITIVE_INFINITY);
    if (chosen.isEmpty()) chosen.add(middle(trees, free));
    for (int j : chosen) nearer(trees, free, nearest, j);
    while (chosen.size() < count) {
      int best = -1;
      for (int i = free.nextSetBit(0); i >= 0; i = free.nextSetBit(i + 1)) {
        if (nearest[i] > 0 && (best < 0 || nearest[i] > nearest[best] + 1e-9)) best = i;
      }
      chosen.add(best);
      nearer(trees, free, nearest, best);
    }
    return chosen;
  }

  private static void nearer(Standing trees, BitSet free, double[] nearest, int j) {
    for (int i = free.nextSetBit(0); i >= 0; i = free.nextSetBit(i + 1))
      nearest[i] = Math.min(nearest[i], trees.distance(i, j));
  }

  private static int middle(Standing trees, BitSet free) {
    double across = free.stream().mapToDouble(i -> trees.across[i]).average().orElse(0);
    double along = free.stream().mapToDouble(i -> trees.along[i]).average().orElse(0);
    return free.stream()
        .boxed()
        .min(
            Comparator.comparingDouble(
                (Integer i) ->
                    Math.round(1e6 * Math.hypot(trees.across[i] - across, trees.along[i] - along))))
        .orElseThrow();
  }

  /**
   * Turns as few trees into partners as serve those that fail, then as many as the least share asks
   * for, and shares the rest out anew.
   */
  private Mixed partnered(Mixed mixed) {
    Standing trees = mixed.trees();
    Partnering partnering = new Partnering(trees, mixed, pollen, partners, beeDistanceM);
    int[] kind = partnering.kind();
    List<Integer> used = partnering.used();
    int fewest = partnering.count();
    if (fewest > 0) top(trees, kind, used, (int) Math.ceil(leastShare * trees.size - 1e-9));
    Mixed first =
        Mixed.of(trees, kind, pollen, beeDistanceM, fewest, partnering.bound(), mixed.wholeRows());
    if (mains.length == 1 || fewest == 0) return first;
    int[] again = kind.clone();
    share(
        trees,
        again,
        IntStream.range(0, trees.size).filter(i -> !kinds.get(kind[i]).isPartner()).toArray(),
        mixed.wholeRows());
    Mixed second =
        Mixed.of(trees, again, pollen, beeDistanceM, fewest, partnering.bound(), mixed.wholeRows());
    return second.failing().cardinality() <= first.failing().cardinality() ? second : first;
  }

  private void top(Standing trees, int[] kind, List<Integer> used, int count) {
    BitSet free = new BitSet();
    List<Integer> placed = new ArrayList<>();
    for (int i = 0; i < trees.size; i++) {
      if (used.contains(kind[i])) placed.add(i);
      free.set(i);
    }
    int first = placed.size();
    List<Integer> chosen = far(trees, free, placed, Math.max(first, count));
    int[] counts = new int[kinds.size()];
    for (int i : placed) counts[kind[i]]++;
    for (int i : chosen.subList(first, chosen.size())) {
      int rarest =
          used.stream().min(Comparator.comparingInt((Integer k) -> counts[k])).orElseThrow();
      kind[i] = rarest;
      counts[rarest]++;
    }
  }
}
