package org.understock.planting;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.understock.planting.Cover.Choice;

/** Puts as few partners as do it among trees that lack one. */
final class Partnering {
  private final Standing trees;
  private final Pollen pollen;
  private final double beeDistanceM;
  private final int[] kind;
  private final int[] mainKinds;
  private final List<Integer> used = new ArrayList<>();
  private final Reach reach;
  private int count;
  private int bound;

  Partnering(Standing trees, Mixed mixed, Pollen pollen, int[] partners, double beeDistanceM) {
    this.trees = trees;
    this.pollen = pollen;
    this.beeDistanceM = beeDistanceM;
    kind = mixed.kind().clone();
    mainKinds = java.util.Arrays.stream(kind).distinct().toArray();
    reach = new Reach(trees, beeDistanceM);
    int[] pair = pairFor(mixed, partners);
    if (pair.length == 2) two(mixed, pair[0], pair[1]);
    else oneEach(mixed, partners);
  }

  int[] kind() {
    return kind;
  }

  /** Partners that were placed, by kind. */
  List<Integer> used() {
    return used;
  }

  int count() {
    return count;
  }

  int bound() {
    return bound;
  }

  /**
   * Two partners for a failing pairing that needs two and finds neither, where there are: the first
   * serves it, the second serves either.
   */
  private int[] pairFor(Mixed mixed, int[] partners) {
    for (int i = mixed.failing().nextSetBit(0); i >= 0; i = mixed.failing().nextSetBit(i + 1)) {
      int k = kind[i];
      if (pollen.needed[k] < 2 || servedByMain(k)) continue;
      for (int first : partners) {
        if (!pollen.serves[k][first]) continue;
        for (int second : partners) {
          if (pollen.variety[second] != pollen.variety[first] && pollen.second[k][second])
            return new int[] {first, second};
        }
      }
    }
    return new int[0];
  }

  private boolean servedByMain(int receiver) {
    for (int k : mainKinds) if (pollen.serves[receiver][k]) return true;
    return false;
  }

  /** Every failing tree gets one of each within reach, and the partners one of the other. */
  private void two(Mixed mixed, int first, int second) {
    BitSet needs = (BitSet) mixed.failing().clone();
    BitSet free = new BitSet();
    free.set(0, trees.size);
    Choice one = place(first, needs, free);
    BitSet near = new BitSet();
    for (int j : one.chosen()) {
      needs.set(j);
      for (int k = 0; k < reach.runs[j].length; k += 2)
        near.set(reach.runs[j][k], reach.runs[j][k + 1]);
    }
    near.and(free);
    place(second, needs, near);
    // Every tree in need has two partners in reach or is one itself; so partners × (1 + the largest
    // price) come to twice the sum of prices or more.
    double most = 0;
    double sum = 0;
    for (double price : one.price()) {
      most = Math.max(most, price);
      sum += price;
    }
    bound = Math.max(1, (int) Math.ceil(2 * sum / (1 + most) - 1e-9));
  }

  /**
   * Each failing pairing is served by the first partner on the list that can; pairings with the
   * same partner together.
   */
  private void oneEach(Mixed mixed, int[] partners) {
    BitSet left = (BitSet) mixed.failing().clone();
    BitSet free = new BitSet();
    free.set(0, trees.size);
    for (int partner : partners) {
      BitSet needs = new BitSet();
      for (int i = left.nextSetBit(0); i >= 0; i = left.nextSetBit(i + 1))
        if (completes(mixed.kind()[i], partner)) needs.set(i);
      if (needs.isEmpty()) continue;
      left.andNot(needs);
      needs.and(free); // a place that became a partner is no longer in need
      if (needs.isEmpty()) continue;
      bound = Math.max(bound, place(partner, needs, free).bound());
    }
  }

  private boolean completes(int receiver, int partner) {
    return pollen.needed[receiver] == 2 && servedByMain(receiver)
        ? pollen.second[receiver][partner]
        : pollen.serves[receiver][partner];
  }

  private Choice place(int partner, BitSet needs, BitSet free) {
    Choice choice = Cover.fewest(trees, beeDistanceM, reach, needs, free);
    for (int i : choice.chosen()) {
      kind[i] = partner;
      free.clear(i);
    }
    if (!choice.chosen().isEmpty()) used.add(partner);
    count += choice.chosen().size();
    return choice;
  }
}
