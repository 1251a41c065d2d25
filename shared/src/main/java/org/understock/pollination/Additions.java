package org.understock.pollination;

import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.understock.pollination.Pollination.Helpers;

/**
 * Searches for the fewest varieties that have to join a planting so that everything in it that can
 * be served is served, the newcomers included. Varieties are numbers from 0 in the order of their
 * ids.
 */
final class Additions {
  /*
   * Exact search by size: first all single additions, then pairs, and so on. A node takes the receiver with the fewest possible donors; any set that
   * serves everybody holds one of those, so trying each of them misses none. A branch is left when more receivers are open whose donors have nothing
   * in common than varieties may still be added. Newcomers have to be served too, so a triploid alone gets two that also pollinate each other.
   */
  private static final int LARGEST = 4;

  /**
   * After so many nodes at one size the search gives up and a plain choice, one by one, stands in.
   */
  private static final int MOST_NODES = 200_000;

  private final BitSet set;
  private final BitSet from;
  private final IntPredicate servesItself;
  private final IntFunction<Helpers> helpers;
  private final int[] weights;
  private final int most;
  private final TreeSet<Option> found;
  private final BitSet goal = new BitSet();
  private final BitSet beyond = new BitSet();
  private int[] byRenown = {};
  private int nodes;

  private record Option(int second, int weight, List<Integer> varieties) {
    /** Few that get second-best pollen first, then the best known, then by id. */
    static final Comparator<Option> BEST_FIRST =
        Comparator.comparingInt(Option::second)
            .thenComparingInt(o -> -o.weight)
            .thenComparing(
                Option::varieties,
                (a, b) -> {
                  for (int k = 0; k < Math.min(a.size(), b.size()); k++)
                    if (!a.get(k).equals(b.get(k))) return a.get(k) - b.get(k);
                  return a.size() - b.size();
                });
  }

  /**
   * What came out.
   *
   * @param goal members of the set that were not served and that the options serve
   * @param beyond members of the set that were not served and that nothing to choose from serves
   * @param options the best first
   * @param fewest whether no fewer would do
   */
  record Result(BitSet goal, BitSet beyond, List<List<Integer>> options, boolean fewest) {
    static final Result NONE = new Result(new BitSet(), new BitSet(), List.of(), true);
  }

  /**
   * @param set what is planted
   * @param from what may be added; members of the set are left out of account
   * @param weights how much is known of each variety
   * @param most options to keep
   */
  Additions(
      BitSet set,
      BitSet from,
      IntPredicate servesItself,
      IntFunction<Helpers> helpers,
      int[] weights,
      int most) {
    this.set = set;
    this.from = (BitSet) from.clone();
    this.from.andNot(set);
    this.servesItself = servesItself;
    this.helpers = helpers;
    this.weights = weights;
    this.most = most;
    this.found = new TreeSet<>(Option.BEST_FIRST);
  }

  Result search() {
    leaveOutWhatNobodyServes();
    byRenown =
        from.stream()
            .boxed()
            .sorted(Comparator.comparingInt((Integer v) -> -weights[v]).thenComparingInt(v -> v))
            .mapToInt(v -> v)
            .toArray();
    set.stream()
        .filter(v -> !isServed(v, set))
        .forEach(v -> (helpers.apply(v).sure().intersects(from) ? goal : beyond).set(v));
    if (goal.isEmpty() || most == 0) return new Result(goal, beyond, List.of(), true);
    boolean whole = true;
    for (int size = 1; size <= LARGEST && whole && found.isEmpty(); size++) {
      nodes = 0;
      descend((BitSet) set.clone(), goal, size);
      whole = nodes <= MOST_NODES;
    }
    boolean fewest = !found.isEmpty(); // all smaller sizes were searched whole
    if (found.isEmpty()) keep(oneByOne());
    return new Result(goal, beyond, found.stream().map(Option::varieties).toList(), fewest);
  }

  /**
   * A newcomer that neither the planting nor any other newcomer serves can be in no answer; leaving
   * it out may leave others alone.
   */
  private void leaveOutWhatNobodyServes() {
    boolean changed = true;
    while (changed) {
      changed = false;
      for (int v = from.nextSetBit(0); v >= 0; v = from.nextSetBit(v + 1)) {
        if (isServed(v, set) || helpers.apply(v).sure().intersects(from)) continue;
        from.clear(v);
        changed = true;
      }
    }
  }

  private boolean isServed(int receiver, BitSet planted) {
    return servesItself.test(receiver) || helpers.apply(receiver).sure().intersects(planted);
  }

  private BitSet donors(int receiver) {
    BitSet donors = (BitSet) helpers.apply(receiver).sure().clone();
    donors.and(from);
    return donors;
  }

  /**
   * @param open what is not served in {@code planted} yet: never empty
   */
  private void descend(BitSet planted, BitSet open, int left) {
    if (++nodes > MOST_NODES || apart(open) > left) return;
    if (left == 1) {
      finish(planted, open);
      return;
    }
    BitSet donors = donors(hardest(open));
    for (int donor : byRenown) {
      if (!donors.get(donor) || planted.get(donor)) continue;
      BitSet more = (BitSet) planted.clone();
      more.set(donor);
      BitSet still = stillOpen(open, donor, more);
      if (still.isEmpty()) keep(more);
      else descend(more, still, left - 1);
    }
  }

  /** The last place: whoever serves all that is open and is served by what stands. */
  private void finish(BitSet planted, BitSet open) {
    BitSet donors = (BitSet) from.clone();
    open.stream().forEach(v -> donors.and(helpers.apply(v).sure()));
    for (int donor = donors.nextSetBit(0); donor >= 0; donor = donors.nextSetBit(donor + 1)) {
      if (!isServed(donor, planted)) continue;
      if (++nodes > MOST_NODES) return;
      BitSet whole = (BitSet) planted.clone();
      whole.set(donor);
      keep(whole);
    }
  }

  private BitSet stillOpen(BitSet open, int donor, BitSet planted) {
    BitSet still = new BitSet();
    open.stream().filter(v -> !helpers.apply(v).sure().get(donor)).forEach(still::set);
    if (!isServed(donor, planted)) still.set(donor);
    return still;
  }

  private int hardest(BitSet open) {
    return open.stream()
        .boxed()
        .min(Comparator.comparingInt(v -> donors(v).cardinality()))
        .orElseThrow();
  }

  /**
   * How many of the open ones have no donor in common with each other, at least: each of them needs
   * a newcomer of its own.
   */
  private int apart(BitSet open) {
    BitSet taken = new BitSet();
    int count = 0;
    for (int v :
        open.stream()
            .boxed()
            .sorted(Comparator.comparingInt(v -> donors(v).cardinality()))
            .mapToInt(v -> v)
            .toArray()) {
      BitSet donors = donors(v);
      if (donors.intersects(taken)) continue;
      taken.or(donors);
      count++;
    }
    return count;
  }

  private void keep(BitSet planted) {
    BitSet added = (BitSet) planted.clone();
    added.andNot(set);
    IntStream served = IntStream.concat(goal.stream(), added.stream());
    int second =
        (int)
            served
                .filter(v -> !servesItself.test(v) && !helpers.apply(v).best().intersects(planted))
                .count();
    found.add(
        new Option(
            second, added.stream().map(v -> weights[v]).sum(), added.stream().boxed().toList()));
    if (found.size() > most) found.pollLast();
  }

  /**
   * Always the one that serves most of what is open, until nothing is; what turns out to be
   * needless is taken out again.
   */
  private BitSet oneByOne() {
    BitSet planted = (BitSet) set.clone();
    BitSet open = (BitSet) goal.clone();
    while (!open.isEmpty()) {
      BitSet donors = donors(hardest(open));
      BitSet now = open;
      int best =
          IntStream.of(byRenown)
              .filter(donors::get)
              .boxed()
              .max(
                  Comparator.comparingLong(
                      d -> now.stream().filter(v -> helpers.apply(v).sure().get(d)).count()))
              .orElseThrow();
      planted.set(best);
      open = stillOpen(open, best, planted);
    }
    BitSet added = (BitSet) planted.clone();
    added.andNot(set);
    for (int v = added.nextSetBit(0); v >= 0; v = added.nextSetBit(v + 1)) {
      planted.clear(v);
      boolean needed =
          IntStream.concat(goal.stream(), added.stream())
              .filter(planted::get)
              .anyMatch(r -> !isServed(r, planted));
      if (needed) planted.set(v);
    }
    return planted;
  }
}
