package org.understock.planting;

import java.util.function.IntPredicate;

/** The nearest of some trees to any tree. */
final class Nearest {
  private final Standing trees;
  private final int[] starts;
  private final int[] members;
  private final double[] along;

  Nearest(Standing trees, IntPredicate member) {
    this.trees = trees;
    starts = new int[trees.rowCount() + 1];
    int[] all = new int[trees.size];
    int n = 0;
    for (int r = 0; r < trees.rowCount(); r++) {
      for (int i = trees.starts[r]; i < trees.starts[r + 1]; i++) if (member.test(i)) all[n++] = i;
      starts[r + 1] = n;
    }
    members = java.util.Arrays.copyOf(all, n);
    along = new double[n];
    for (int k = 0; k < n; k++) along[k] = trees.along[members[k]];
  }

  /**
   * Distance to the nearest member other than the tree itself, in m; infinite where there is none.
   */
  double to(int i) {
    double best = Double.POSITIVE_INFINITY;
    int own = trees.row[i] - 1;
    for (int step = 0; step < trees.rowCount(); step++) {
      boolean wider = false;
      for (int side = step == 0 ? 1 : -1; side <= 1; side += 2) {
        int r = own + side * step;
        if (r < 0 || r >= trees.rowCount()) continue;
        double across = Math.abs(trees.across[trees.starts[r]] - trees.across[i]);
        if (across >= best) continue;
        wider = true;
        best = Math.min(best, inRow(i, r));
      }
      if (!wider) break;
    }
    return best;
  }

  private double inRow(int i, int r) {
    int at = Reach.lower(along, starts[r], starts[r + 1], trees.along[i]);
    double best = Double.POSITIVE_INFINITY;
    for (int k = at; k < starts[r + 1] && k <= at + 1; k++)
      if (members[k] != i) best = Math.min(best, trees.distance(i, members[k]));
    if (at > starts[r]) best = Math.min(best, trees.distance(i, members[at - 1]));
    return best;
  }
}
