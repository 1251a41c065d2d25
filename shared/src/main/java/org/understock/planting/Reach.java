package org.understock.planting;

import java.util.Arrays;

/**
 * Which trees stand within a distance of which: for every tree, a run of neighbours in each row
 * near enough. A tree reaches itself.
 */
final class Reach {
  /** Runs of each tree: first and one past the last index, in pairs. */
  final int[][] runs;

  Reach(Standing trees, double distanceM) {
    runs = new int[trees.size][];
    double limit = distanceM + 1e-9;
    int[] found = new int[2 * Math.max(1, trees.rowCount())];
    for (int i = 0; i < trees.size; i++) {
      int n = 0;
      for (int r = 0; r < trees.rowCount(); r++) {
        int from = trees.starts[r];
        int to = trees.starts[r + 1];
        if (from == to) continue;
        double across = trees.across[from] - trees.across[i];
        if (Math.abs(across) > limit) continue;
        double half = Math.sqrt(limit * limit - across * across);
        int low = lower(trees.along, from, to, trees.along[i] - half);
        int high = lower(trees.along, low, to, Math.nextUp(trees.along[i] + half));
        if (low == high) continue;
        found[n++] = low;
        found[n++] = high;
      }
      runs[i] = Arrays.copyOf(found, n);
    }
  }

  /** First index from which on values are not below the bound. */
  static int lower(double[] sorted, int from, int to, double bound) {
    int low = from;
    int high = to;
    while (low < high) {
      int mid = (low + high) >>> 1;
      if (sorted[mid] < bound) low = mid + 1;
      else high = mid;
    }
    return low;
  }

  /** Sum over a tree's reach, given running sums: {@code sums[k]} of the first k values. */
  double sum(int i, double[] sums) {
    double sum = 0;
    for (int k = 0; k < runs[i].length; k += 2) sum += sums[runs[i][k + 1]] - sums[runs[i][k]];
    return sum;
  }

  /** The same of whole numbers. */
  int sum(int i, int[] sums) {
    int sum = 0;
    for (int k = 0; k < runs[i].length; k += 2) sum += sums[runs[i][k + 1]] - sums[runs[i][k]];
    return sum;
  }

  /** Adds to the count of every tree that one reaches. */
  void add(int i, int[] counts, int more) {
    for (int k = 0; k < runs[i].length; k += 2)
      for (int j = runs[i][k]; j < runs[i][k + 1]; j++) counts[j] += more;
  }

  static double[] running(double[] values, double[] into) {
    for (int k = 0; k < values.length; k++) into[k + 1] = into[k] + values[k];
    return into;
  }
}
