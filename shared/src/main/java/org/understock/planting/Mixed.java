package org.understock.planting;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * Which pairing stands where, and how far each tree's partner is.
 *
 * @param kind pairing of each place
 * @param partnerM distance to the farthest partner that the tree needs; NaN where it needs none,
 *     infinite where there is none
 * @param failing trees whose partners are too far or missing
 * @param fewest partners that distance alone asks for; 0 where none are placed
 * @param bound fewer partners than this cannot do
 * @param wholeRows whether varieties stand in whole rows, as far as their numbers allow
 */
record Mixed(
    Standing trees,
    int[] kind,
    double[] partnerM,
    BitSet failing,
    int fewest,
    int bound,
    boolean wholeRows) {

  static Mixed of(
      Standing trees,
      int[] kind,
      Pollen pollen,
      double beeDistanceM,
      int fewest,
      int bound,
      boolean wholeRows) {
    double[] partner = new double[trees.size];
    Arrays.fill(partner, Double.NaN);
    BitSet failing = new BitSet();
    int varieties = Arrays.stream(pollen.variety).max().orElse(-1) + 1;
    Nearest[] nearest = new Nearest[varieties];
    for (int v = 0; v < varieties; v++) {
      int variety = v;
      nearest[v] = new Nearest(trees, i -> pollen.variety[kind[i]] == variety);
    }
    for (int i = 0; i < trees.size; i++) {
      int k = kind[i];
      if (pollen.needed[k] == 0) continue;
      partner[i] = partner(i, k, pollen, nearest);
      if (!(partner[i] <= beeDistanceM + 1e-9)) failing.set(i);
    }
    return new Mixed(trees, kind, partner, failing, fewest, bound, wholeRows);
  }

  /** Distance within which a tree has all the partners it needs. */
  private static double partner(int i, int k, Pollen pollen, Nearest[] nearest) {
    boolean[] first = varieties(pollen.serves[k], pollen);
    boolean[] second = pollen.needed[k] == 2 ? varieties(pollen.second[k], pollen) : first;
    double best = Double.POSITIVE_INFINITY;
    double next = Double.POSITIVE_INFINITY;
    double serving = Double.POSITIVE_INFINITY;
    for (int v = 0; v < nearest.length; v++) {
      if (!second[v] && !first[v]) continue;
      double d = nearest[v].to(i);
      if (first[v]) serving = Math.min(serving, d);
      if (d < best) {
        next = best;
        best = d;
      } else {
        next = Math.min(next, d);
      }
    }
    return pollen.needed[k] == 1 ? serving : Math.max(serving, next);
  }

  private static boolean[] varieties(boolean[] kinds, Pollen pollen) {
    boolean[] varieties = new boolean[pollen.variety.length];
    for (int d = 0; d < kinds.length; d++) if (kinds[d]) varieties[pollen.variety[d]] = true;
    return varieties;
  }

  /**
   * The farthest that a partner is of any tree that needs one; NaN where none does, infinite where
   * one has none.
   */
  double farthestM() {
    double farthest = Double.NaN;
    for (double m : partnerM) if (!Double.isNaN(m) && !(m <= farthest)) farthest = m;
    return farthest;
  }

  int[] counts(int kinds) {
    int[] counts = new int[kinds];
    for (int k : kind) counts[k]++;
    return counts;
  }

  /**
   * So many trees in given shares: whole trees by the largest remainder, the earlier first where
   * remainders are equal.
   */
  static int[] largestRemainder(int trees, List<Double> shares) {
    double sum = shares.stream().mapToDouble(Double::doubleValue).sum();
    int[] counts = new int[shares.size()];
    double[] left = new double[shares.size()];
    int given = 0;
    for (int k = 0; k < counts.length; k++) {
      double exact = trees * shares.get(k) / sum;
      counts[k] = (int) Math.floor(exact + 1e-9);
      left[k] = exact - counts[k];
      given += counts[k];
    }
    while (given < trees) {
      int best = 0;
      for (int k = 1; k < left.length; k++) if (left[k] > left[best] + 1e-9) best = k;
      counts[best]++;
      left[best] -= 1;
      given++;
    }
    return counts;
  }
}
